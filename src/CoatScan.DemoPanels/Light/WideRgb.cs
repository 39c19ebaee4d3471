using System.Numerics;
using CoatScan.DemoPanels.Paint;

namespace CoatScan.DemoPanels.Light;

/// <summary>Colors of several points at a time, one lane each.</summary>
internal readonly record struct WideRgb(Vector<float> Red, Vector<float> Green, Vector<float> Blue)
{
    public WideRgb(Rgb color)
        : this(new Vector<float>(color.R), new Vector<float>(color.G), new Vector<float>(color.B))
    {
    }

    public static WideRgb operator +(WideRgb a, Rgb b) => new(
        a.Red + new Vector<float>(b.R), a.Green + new Vector<float>(b.G), a.Blue + new Vector<float>(b.B));

    public static WideRgb Mix(Rgb a, Rgb b, Vector<float> weight) => new(
        new Vector<float>(a.R) + (weight * (b.R - a.R)),
        new Vector<float>(a.G) + (weight * (b.G - a.G)),
        new Vector<float>(a.B) + (weight * (b.B - a.B)));

    public static WideRgb Mix(WideRgb a, WideRgb b, Vector<float> weight) => new(
        a.Red + ((b.Red - a.Red) * weight), a.Green + ((b.Green - a.Green) * weight), a.Blue + ((b.Blue - a.Blue) * weight));

    public static WideRgb Mix(WideRgb a, Rgb b, Vector<float> weight) => Mix(a, new WideRgb(b), weight);
}
