using CoatScan.Metrics.Features;

namespace CoatScan.Metrics;

/// <summary>The hand-made texture features of a panel for the classifier: names, order and values.</summary>
/// <remarks>
/// <para>The panel is reduced to 512 px on the long side, so that the features depend on the framing, not on the resolution; a
/// smaller panel is taken as it is. All values are finite. Deterministic.</para>
/// <para>A model belongs to one <see cref="Version"/>: names, order and definitions change together with it.</para>
/// </remarks>
public static class FeatureVector
{
    /// <summary>Version of names, order and definitions.</summary>
    public const string Version = "1";

    private static readonly string[] OrderedNames = NamesOfBlank();

    /// <summary>Names, snake_case, in the order of the values.</summary>
    public static IReadOnlyList<string> Names => OrderedNames;

    /// <summary>Number of features.</summary>
    public static int Length => OrderedNames.Length;

    /// <summary>Features of a panel.</summary>
    public static IReadOnlyList<float> Measure(PanelPlanes panel)
    {
        ArgumentNullException.ThrowIfNull(panel);
        using var scope = new PlaneScope();
        return Measure(new FeatureScene(panel, scope));
    }

    internal static IReadOnlyList<float> Measure(FeatureScene scene) => Write(scene).Values;

    private static FeatureWriter Write(FeatureScene scene)
    {
        var writer = new FeatureWriter();
        BandFeatures.Write(scene, writer);
        ColorFeatures.Write(scene, writer);
        MarkFeatures.Write(scene, writer);
        StructureFeatures.Write(scene, writer);
        return writer;
    }

    // The names do not depend on the picture: a small gray one tells them.
    private static string[] NamesOfBlank()
    {
        using var scope = new PlaneScope();
        var gray = new Plane(64, 64);
        gray.Values.AsSpan().Fill(0.2f);
        var panel = new PanelPlanes
        {
            Red = gray,
            Green = gray,
            Blue = gray,
            Lightness = gray,
            AStar = gray,
            BStar = gray,
            Clipped = new bool[gray.Values.Length],
            OriginalPxPerPx = 1.0,
        };
        return [.. Write(new(panel, scope)).Names];
    }
}
