using System.Runtime.CompilerServices;
using CoatScan.Metrics.Color;
using CoatScan.Metrics.Filters;
using CoatScan.Metrics.Gloss;
using CoatScan.Metrics.Zones;

namespace CoatScan.Metrics;

/// <summary>The panel at the fixed size on which the broad metrics are computed.</summary>
internal sealed class CoarsePanel
{
    internal const int LongSidePx = 512;

    private TwoColors? _colors;
    private HighlightReading? _highlight;
    private bool _isHighlightSought;

    internal CoarsePanel(PanelPlanes panel, PlaneScope scope)
    {
        var (width, height) = AreaReduction.Fit(panel.Width, panel.Height, LongSidePx);
        var red = Reduce(panel.Red, width, height, scope);
        var green = Reduce(panel.Green, width, height, scope);
        var blue = Reduce(panel.Blue, width, height, scope);
        Lab = LabPlanes.FromLinear(red, green, blue);
        LogLuminance = Texture.LogLuminance.Of(red, green, blue, scope);
        Luminance = scope.Rent(width, height);
        FillLuminance(red.Values, green.Values, blue.Values, Luminance.Values);
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

    /// <summary>The two colors that split the panel best.</summary>
    internal TwoColors Colors => _colors ??= TwoColors.Of(Lab);

    /// <summary>The largest highlight; null if there is none.</summary>
    internal HighlightReading? Highlight
    {
        get
        {
            if (!_isHighlightSought)
            {
                _highlight = Gloss.Highlight.Find(Luminance);
                _isHighlightSought = true;
            }

            return _highlight;
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static void FillLuminance(float[] red, float[] green, float[] blue, float[] target)
    {
        for (var i = 0; i < target.Length; i++)
        {
            target[i] = (float)((CieLab.RedLuminance * red[i])
                + (CieLab.GreenLuminance * green[i]) + (CieLab.BlueLuminance * blue[i]));
        }
    }

    private static Plane Reduce(Plane plane, int width, int height, PlaneScope scope)
    {
        var target = scope.Rent(width, height);
        AreaReduction.Apply(plane, target);
        return target;
    }
}
