using CoatScan.Metrics.Color;
using CoatScan.Metrics.Filters;

namespace CoatScan.Metrics.Features;

/// <summary>The panel at the fixed size on which the features and the broad metrics are computed.</summary>
internal sealed class FeatureScene
{
    internal const int LongSidePx = 512;

    internal FeatureScene(PanelPlanes panel, PlaneScope scope)
    {
        var (width, height) = AreaReduction.Fit(panel.Width, panel.Height, LongSidePx);
        var red = Reduce(panel.Red, width, height, scope);
        var green = Reduce(panel.Green, width, height, scope);
        var blue = Reduce(panel.Blue, width, height, scope);
        Lab = LabPlanes.FromLinear(red, green, blue);
        LogLuminance = Texture.LogLuminance.Of(red, green, blue, scope);
        Luminance = scope.Rent(width, height);
        for (var i = 0; i < Luminance.Values.Length; i++)
        {
            Luminance.Values[i] = (float)((CieLab.RedLuminance * red.Values[i])
                + (CieLab.GreenLuminance * green.Values[i]) + (CieLab.BlueLuminance * blue.Values[i]));
        }

        Clipped = new bool[width * height];
        PlanesPxPerPx = (double)panel.Width / width;
        Panel = new()
        {
            Red = red,
            Green = green,
            Blue = blue,
            Lightness = Lab.Lightness,
            AStar = Lab.AStar,
            BStar = Lab.BStar,
            Clipped = Clipped,
            OriginalPxPerPx = panel.OriginalPxPerPx * PlanesPxPerPx,
        };
    }

    internal PanelPlanes Panel { get; }

    internal LabPlanes Lab { get; }

    /// <summary>Linear luminance Y, [0, 1].</summary>
    internal Plane Luminance { get; }

    internal Plane LogLuminance { get; }

    /// <summary>No pixel of the reduced panel counts as clipped: what is white is a feature here.</summary>
    internal bool[] Clipped { get; }

    /// <summary>Pixels of the panel's planes per pixel here, at least 1.</summary>
    internal double PlanesPxPerPx { get; }

    internal int Width => Lab.Lightness.Width;

    internal int Height => Lab.Lightness.Height;

    private static Plane Reduce(Plane plane, int width, int height, PlaneScope scope)
    {
        var target = scope.Rent(width, height);
        AreaReduction.Apply(plane, target);
        return target;
    }
}
