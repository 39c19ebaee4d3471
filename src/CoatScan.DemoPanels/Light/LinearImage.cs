using CoatScan.DemoPanels.Paint;
using CoatScan.Metrics;

namespace CoatScan.DemoPanels.Light;

/// <summary>A picture in linear light, before any camera.</summary>
internal sealed class LinearImage(int width, int height)
{
    public int Width { get; } = width;

    public int Height { get; } = height;

    public Plane Red { get; } = new(width, height);

    public Plane Green { get; } = new(width, height);

    public Plane Blue { get; } = new(width, height);

    public Rgb this[int at]
    {
        get => new(Red.Values[at], Green.Values[at], Blue.Values[at]);
        set
        {
            Red.Values[at] = value.R;
            Green.Values[at] = value.G;
            Blue.Values[at] = value.B;
        }
    }

    /// <summary>Paints over one pixel; <paramref name="coverage"/> in [0, 1].</summary>
    public void Over(int at, Rgb color, float coverage)
    {
        if (coverage > 0f)
        {
            this[at] = Rgb.Mix(this[at], color, MathF.Min(1f, coverage));
        }
    }
}
