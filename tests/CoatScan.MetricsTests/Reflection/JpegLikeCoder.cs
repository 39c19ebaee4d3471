using CoatScan.Metrics;
using CoatScan.Metrics.Color;

namespace CoatScan.MetricsTests.Reflection;

/// <summary>What a baseline JPEG does to a gray photo: 8-bit sRGB, 8 x 8 DCT, quantized luminance coefficients.</summary>
/// <remarks>
/// Source: ITU-T T.81, A.3.3 (DCT) and table K.1; scaled by quality the way the Independent JPEG Group's library does (from
/// memory).
/// </remarks>
internal static class JpegLikeCoder
{
    private static readonly int[] TableK1 =
    [
        16, 11, 10, 16, 24, 40, 51, 61, 12, 12, 14, 19, 26, 58, 60, 55,
        14, 13, 16, 24, 40, 57, 69, 56, 14, 17, 22, 29, 51, 87, 80, 62,
        18, 22, 37, 56, 68, 109, 103, 77, 24, 35, 55, 64, 81, 104, 113, 92,
        49, 64, 78, 87, 103, 121, 120, 101, 72, 92, 95, 98, 112, 100, 103, 99,
    ];

    private static readonly double[,] Cosines = MakeCosines();

    /// <summary>Linear light in, linear light out; sides must be multiples of 8.</summary>
    internal static Plane Code(Plane linear, int quality)
    {
        var scale = quality < 50 ? 5000 / quality : 200 - (2 * quality);
        var table = Array.ConvertAll(TableK1, entry => Math.Clamp(((entry * scale) + 50) / 100, 1, 255));
        var coded = new Plane(linear.Width, linear.Height);
        for (var top = 0; top < linear.Height; top += 8)
        {
            for (var left = 0; left < linear.Width; left += 8)
            {
                CodeBlock(linear, coded, left, top, table);
            }
        }

        return coded;
    }

    private static void CodeBlock(Plane linear, Plane coded, int left, int top, int[] table)
    {
        var samples = new double[8, 8];
        for (var y = 0; y < 8; y++)
        {
            for (var x = 0; x < 8; x++)
            {
                samples[y, x] = Math.Round(255.0 * Encode(linear[left + x, top + y])) - 128.0;
            }
        }

        var coefficients = Transform(samples, isForward: true);
        for (var v = 0; v < 8; v++)
        {
            for (var u = 0; u < 8; u++)
            {
                var step = table[(v * 8) + u];
                coefficients[v, u] = Math.Round(coefficients[v, u] / step) * step;
            }
        }

        var decoded = Transform(coefficients, isForward: false);
        for (var y = 0; y < 8; y++)
        {
            for (var x = 0; x < 8; x++)
            {
                coded[left + x, top + y] = (float)SrgbTransfer.ToLinear(
                    Math.Clamp(Math.Round(decoded[y, x] + 128.0), 0.0, 255.0) / 255.0);
            }
        }
    }

    // The cosines are orthonormal, which is the scale of T.81.
    private static double[,] Transform(double[,] block, bool isForward)
    {
        var half = new double[8, 8];
        var whole = new double[8, 8];
        for (var i = 0; i < 64; i++)
        {
            for (var k = 0; k < 8; k++)
            {
                half[i / 8, i % 8] += block[i / 8, k] * (isForward ? Cosines[i % 8, k] : Cosines[k, i % 8]);
            }
        }

        for (var i = 0; i < 64; i++)
        {
            for (var k = 0; k < 8; k++)
            {
                whole[i / 8, i % 8] += half[k, i % 8] * (isForward ? Cosines[i / 8, k] : Cosines[k, i / 8]);
            }
        }

        return whole;
    }

    private static double[,] MakeCosines()
    {
        var cosines = new double[8, 8];
        for (var u = 0; u < 8; u++)
        {
            for (var x = 0; x < 8; x++)
            {
                cosines[u, x] = (u == 0 ? Math.Sqrt(0.125) : 0.5) * Math.Cos(((2 * x) + 1) * u * Math.PI / 16.0);
            }
        }

        return cosines;
    }

    // IEC 61966-2-1.
    private static double Encode(double linear) => linear <= 0.0031308
        ? 12.92 * Math.Max(0.0, linear)
        : (1.055 * Math.Pow(Math.Min(1.0, linear), 1.0 / 2.4)) - 0.055;
}
