using System.Runtime.CompilerServices;
using CoatScan.Findings;

namespace CoatScan.Metrics.Quality;

/// <summary>Sharpness, exposure and typical color of the panel.</summary>
/// <remarks>
/// <para><c>sharpness</c>: modulation left at a wavelength of 8 px of the planes, (0, 1], see <see cref="SharpnessReading"/>;
/// absent without edges.</para>
/// <para><c>clipped_fraction</c>: share of clipped pixels, [0, 1]. <c>mean_lightness</c>: mean CIE L*, [0, 100].</para>
/// <para><c>panel_l</c>, <c>panel_a</c>, <c>panel_b</c>: medians of CIE L*, a*, b* over the pixels of every second row and column that are
/// not clipped; they
/// describe the photo, not the paint: light, angle and camera are in them. Absent if all pixels are clipped.</para>
/// </remarks>
internal static class PanelAppearance
{
    internal const string NoEdges = "the photo shows no edges that could tell its focus";
    internal const string AllClipped = "every pixel is clipped to white";

    internal static void Measure(PanelPlanes panel, CaptureReading capture, List<Measurement> measurements)
    {
        var (sharpness, exposure) = capture;
        measurements.Add(sharpness is { } reading
            ? Measurement.Of("sharpness", reading.ModulationAt8Px, "1")
            : Measurement.Absent("sharpness", "1", NoEdges));
        measurements.Add(Measurement.Of("clipped_fraction", exposure.ClippedFraction, "1"));
        measurements.Add(Measurement.Of("mean_lightness", exposure.MeanLightness, "1"));
        measurements.Add(Median("panel_l", panel.Lightness, panel.Clipped));
        measurements.Add(Median("panel_a", panel.AStar, panel.Clipped));
        measurements.Add(Median("panel_b", panel.BStar, panel.Clipped));
    }

    private static Measurement Median(string metric, Plane plane, bool[] clipped)
    {
        var histogram = new ValueHistogram(-130.0f, 130.0f, 2600);
        for (var y = 0; y < plane.Height; y += 2)
        {
            AddRow(plane.Row(y), clipped.AsSpan(y * plane.Width, plane.Width), histogram);
        }

        return histogram.Count == 0
            ? Measurement.Absent(metric, "1", AllClipped)
            : Measurement.Of(metric, histogram.Quantile(0.5), "1");
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static void AddRow(ReadOnlySpan<float> row, ReadOnlySpan<bool> clipped, ValueHistogram histogram)
    {
        for (var x = 0; x < row.Length; x += 2)
        {
            if (!clipped[x])
            {
                histogram.Add(row[x]);
            }
        }
    }
}
