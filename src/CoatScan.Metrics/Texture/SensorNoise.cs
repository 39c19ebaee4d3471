using CoatScan.Metrics.Filters;

namespace CoatScan.Metrics.Texture;

/// <summary>Standard deviation of the pixel noise of a plane, in the plane's unit.</summary>
/// <remarks>
/// <para>Median absolute response to the kernel [1 -2 1; -2 4 -2; 1 -2 1], which ignores slopes and straight edges; over 6 x
/// 0.6745 it is the standard deviation of white noise. At most about 40,000 pixels are looked at.</para>
/// <para>Noise that a camera has smoothed is underestimated, so the correction made with it is a cautious one.</para>
/// <para>Source: Immerkaer, Computer Vision and Image Understanding 64(2), 300-302, 1996 (kernel; here with a median).</para>
/// </remarks>
internal static class SensorNoise
{
    private const int LeastStride = 7;
    private const int LargestSample = 40_000;

    internal static double Of(Plane plane)
    {
        if (plane.Width < 3 || plane.Height < 3)
        {
            return 0.0;
        }

        var responses = new List<float>();
        var values = plane.Values;
        var stride = Math.Max(LeastStride, values.Length / LargestSample);
        var width = plane.Width;
        for (var y = 1; y < plane.Height - 1; y++)
        {
            for (var x = 1 + (y * 5 % stride); x < width - 1; x += stride)
            {
                var i = (y * width) + x;
                var cross = values[i - 1] + values[i + 1] + values[i - width] + values[i + width];
                var corners = values[i - width - 1] + values[i - width + 1]
                    + values[i + width - 1] + values[i + width + 1];
                responses.Add(Math.Abs((4.0f * values[i]) - (2.0f * cross) + corners));
            }
        }

        if (responses.Count == 0)
        {
            return 0.0;
        }

        responses.Sort();
        return responses[responses.Count / 2] / (6.0 * 0.6745);
    }

    /// <summary>Root mean square that white noise of 1 leaves in the band from L1 to 2 L1, L1 in pixels.</summary>
    /// <remarks>
    /// With the Gaussian g of variance s^2 the squared weights of g1 - g2 sum to 1/(4 pi) (1/s1^2 + 1/s2^2 - 4/(s1^2 + s2^2)).
    /// </remarks>
    internal static double ShareInBand(double shortestPx)
    {
        var first = Math.Pow(GaussianFilter.SigmaOfCutoff(shortestPx), 2.0);
        var second = 4.0 * first;
        var sum = (1.0 / first) + (1.0 / second) - (4.0 / (first + second));
        return Math.Sqrt(sum / (4.0 * Math.PI));
    }
}
