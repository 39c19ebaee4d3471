using System.Numerics;

namespace CoatScan.DemoPanels.Camera;

/// <summary>Linear light to display values, sRGB (IEC 61966-2-1) with a shoulder over the highlights.</summary>
internal static class ToneCurve
{
    private const int Steps = 4096;
    private const float Top = 4f;
    private const float ShoulderFrom = 0.75f;
    private static readonly float[] Table = Build();

    public static float Encode(float linear, float contrast)
    {
        var position = Math.Clamp(linear / Top, 0f, 0.99999f);

        // Square-root spacing keeps the dark end, where the curve is steep, finely sampled.
        position = MathF.Sqrt(position) * (Steps - 1);
        var first = (int)position;
        var value = Table[first] + ((Table[first + 1] - Table[first]) * (position - first));
        return value + (contrast * ((value * value * (3f - (2f * value))) - value));
    }

    /// <summary>The same for several values at a time.</summary>
    public static Vector<float> Encode(Vector<float> linear, float contrast)
    {
        var position = Vector.Min(new Vector<float>(0.99999f), Vector.Max(Vector<float>.Zero, linear * (1f / Top)));
        position = Vector.SquareRoot(position) * (Steps - 1f);
        Span<float> lanes = stackalloc float[Vector<float>.Count];
        position.CopyTo(lanes);
        foreach (ref var lane in lanes)
        {
            var first = (int)lane;
            lane = Table[first] + ((Table[first + 1] - Table[first]) * (lane - first));
        }

        var value = new Vector<float>(lanes);
        return value + (((value * value * (new Vector<float>(3f) - (value + value))) - value) * contrast);
    }

    private static float[] Build()
    {
        var table = new float[Steps + 1];
        for (var i = 0; i < table.Length; i++)
        {
            var root = i / (Steps - 1f);
            var linear = root * root * Top;
            var room = 1f - ShoulderFrom;
            if (linear > ShoulderFrom)
            {
                linear = ShoulderFrom + (room * (1f - MathF.Exp(-(linear - ShoulderFrom) / room)));
            }

            table[i] = linear <= 0.0031308f ? 12.92f * linear : (1.055f * MathF.Pow(linear, 1f / 2.4f)) - 0.055f;
        }

        return table;
    }
}
