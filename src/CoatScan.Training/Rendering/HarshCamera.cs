namespace CoatScan.Training.Rendering;

/// <summary>
/// Spoils a rendered picture as a hurried user, a dim yard or a messenger's recompression would: exposure, color cast,
/// contrast, soft focus, noise. Shapes stay where they are, so masks stay true.
/// </summary>
internal static class HarshCamera
{
    // Chosen by eye to look like bad phone photos; common practice, no source.
    private const double StopRange = 0.9;

    private const double CastRange = 0.14;

    private const double LargestBlurPx = 1.6;

    private const double LargestNoise = 9;

    /// <param name="rgb">8-bit red, green, blue, row by row.</param>
    /// <param name="widthPx">Width, pixels.</param>
    /// <param name="heightPx">Height, pixels.</param>
    /// <param name="random">Draws how it is spoilt.</param>
    /// <returns>A spoilt copy.</returns>
    public static byte[] Spoil(byte[] rgb, int widthPx, int heightPx, Random random)
    {
        var gain = Math.Pow(2, Between(random, -StopRange, StopRange));
        var gamma = Between(random, 0.75, 1.3);
        double[] cast =
        [
            gain * (1 + Between(random, -CastRange, CastRange)),
            gain,
            gain * (1 + Between(random, -CastRange, CastRange)),
        ];
        var fog = Between(random, 0, 0.08);
        var spoilt = new double[rgb.Length];
        for (var i = 0; i < rgb.Length; i++)
        {
            var toned = Math.Pow(rgb[i] / 255.0, gamma) * cast[i % 3];
            spoilt[i] = 255 * (fog + ((1 - fog) * Math.Min(1, toned)));
        }

        Blur(spoilt, widthPx, heightPx, Between(random, 0, LargestBlurPx));
        return AddNoise(spoilt, Between(random, 0, LargestNoise), random);
    }

    private static void Blur(double[] rgb, int widthPx, int heightPx, double sigmaPx)
    {
        // Narrower than this, the kernel is a single sample.
        if (sigmaPx < 0.3)
        {
            return;
        }

        var kernel = Kernel(sigmaPx);
        var rowStride = widthPx * 3;
        for (var y = 0; y < heightPx; y++)
        {
            for (var channel = 0; channel < 3; channel++)
            {
                BlurLine(rgb, (y * rowStride) + channel, 3, widthPx, kernel);
            }
        }

        for (var x = 0; x < rowStride; x++)
        {
            BlurLine(rgb, x, rowStride, heightPx, kernel);
        }
    }

    private static double[] Kernel(double sigmaPx)
    {
        var radius = (int)Math.Ceiling(3 * sigmaPx);
        var kernel = new double[(2 * radius) + 1];
        for (var i = -radius; i <= radius; i++)
        {
            kernel[i + radius] = Math.Exp(-i * i / (2 * sigmaPx * sigmaPx));
        }

        var sum = kernel.Sum();
        return [.. kernel.Select(weight => weight / sum)];
    }

    private static void BlurLine(double[] values, int start, int stride, int count, double[] kernel)
    {
        var radius = kernel.Length / 2;
        var line = new double[count];
        for (var i = 0; i < count; i++)
        {
            line[i] = values[start + (i * stride)];
        }

        for (var i = 0; i < count; i++)
        {
            var sum = 0.0;
            for (var k = -radius; k <= radius; k++)
            {
                sum += kernel[k + radius] * line[Math.Clamp(i + k, 0, count - 1)];
            }

            values[start + (i * stride)] = sum;
        }
    }

    private static byte[] AddNoise(double[] values, double deviation, Random random)
    {
        var bytes = new byte[values.Length];
        for (var i = 0; i < bytes.Length; i++)
        {
            // The sum of three uniform draws is near enough to normal for sensor noise, and cheap.
            var draw = (random.NextDouble() + random.NextDouble() + random.NextDouble() - 1.5) * 2;
            bytes[i] = (byte)Math.Clamp(Math.Round(values[i] + (draw * deviation)), 0, 255);
        }

        return bytes;
    }

    private static double Between(Random random, double low, double high) => low + ((high - low) * random.NextDouble());
}
