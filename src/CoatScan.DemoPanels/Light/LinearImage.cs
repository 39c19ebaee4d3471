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

    /// <summary>The color at a place between pixels, held at the borders.</summary>
    public Rgb Between(float x, float y)
    {
        var left = Math.Clamp((int)x, 0, Width - 2);
        var top = Math.Clamp((int)y, 0, Height - 2);
        var shareX = Math.Clamp(x - left, 0f, 1f);
        var at = (top * Width) + left;
        return Rgb.Mix(
            Rgb.Mix(this[at], this[at + 1], shareX),
            Rgb.Mix(this[at + Width], this[at + Width + 1], shareX),
            Math.Clamp(y - top, 0f, 1f));
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
