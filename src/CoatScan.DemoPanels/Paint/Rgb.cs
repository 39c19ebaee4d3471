using System.Numerics;

namespace CoatScan.DemoPanels.Paint;

/// <summary>Linear light or reflectance in the sRGB primaries.</summary>
internal readonly record struct Rgb
{
    private readonly Vector3 _light;

    public Rgb(float r, float g, float b)
        : this(new Vector3(r, g, b))
    {
    }

    private Rgb(Vector3 light) => _light = light;

    public float R => _light.X;

    public float G => _light.Y;

    public float B => _light.Z;

    /// <summary>Relative luminance (Rec. 709 weights).</summary>
    public float Luminance => (0.2126f * R) + (0.7152f * G) + (0.0722f * B);

    public static Rgb operator +(Rgb a, Rgb b) => new(a._light + b._light);

    public static Rgb operator *(Rgb a, float k) => new(a._light * k);

    public static Rgb operator *(Rgb a, Rgb b) => new(a._light * b._light);

    public static Rgb Gray(float value) => new(value, value, value);

    public static Rgb Mix(Rgb a, Rgb b, float weight) => new(a._light + ((b._light - a._light) * weight));

    /// <summary>From display values in [0, 1], which are easier to think in than linear light.</summary>
    public static Rgb Display(float r, float g, float b) => new(Linear(r), Linear(g), Linear(b));

    /// <summary>From hue [0, 1), saturation and value of display values.</summary>
    public static Rgb Hue(float hue, float saturation, float value)
    {
        var h = (hue - MathF.Floor(hue)) * 6f;
        return Display(Channel(5f), Channel(3f), Channel(1f));

        float Channel(float n)
        {
            var k = (n + h) % 6f;
            return value - (value * saturation * Math.Clamp(MathF.Min(k, 4f - k), 0f, 1f));
        }
    }

    public Rgb Clamp(float low, float high) => new(Vector3.Clamp(_light, new Vector3(low), new Vector3(high)));

    /// <summary>The largest difference in any channel, in display values.</summary>
    public float DisplayDistance(Rgb other) => MathF.Max(
        MathF.Abs(Encode(R) - Encode(other.R)),
        MathF.Max(MathF.Abs(Encode(G) - Encode(other.G)), MathF.Abs(Encode(B) - Encode(other.B))));

    // IEC 61966-2-1.
    private static float Linear(float v) =>
        v <= 0.04045f ? MathF.Max(0f, v) / 12.92f : MathF.Pow((MathF.Min(v, 1f) + 0.055f) / 1.055f, 2.4f);

    private static float Encode(float v) =>
        v <= 0.0031308f ? 12.92f * v : (1.055f * MathF.Pow(v, 1f / 2.4f)) - 0.055f;
}
