using CoatScan.Metrics.Color;
using CoatScan.Metrics.Filters;

namespace CoatScan.Metrics.Features;

/// <summary>The panel at the fixed size on which the features are computed.</summary>
internal sealed class FeatureScene
{
    internal const int LongSidePx = 512;

    internal FeatureScene(PanelPlanes panel)
    {
        var (width, height) = AreaReduction.Fit(panel.Width, panel.Height, LongSidePx);
        Red = AreaReduction.Apply(panel.Red, width, height);
        Green = AreaReduction.Apply(panel.Green, width, height);
        Blue = AreaReduction.Apply(panel.Blue, width, height);
        Lab = LabPlanes.FromLinear(Red, Green, Blue);
        Clipped = new bool[width * height];
        LogLuminance = Texture.LogLuminance.Of(Red, Green, Blue);
    }

    internal Plane Red { get; }

    internal Plane Green { get; }

    internal Plane Blue { get; }

    internal LabPlanes Lab { get; }

    internal Plane LogLuminance { get; }

    /// <summary>No pixel of the reduced panel counts as clipped: what is white is a feature here.</summary>
    internal bool[] Clipped { get; }

    internal int Width => Red.Width;

    internal int Height => Red.Height;
}
