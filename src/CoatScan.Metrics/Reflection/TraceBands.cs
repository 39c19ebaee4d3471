using CoatScan.Metrics.Filters;

namespace CoatScan.Metrics.Reflection;

/// <summary>Octave bands of the traces of reflected edges.</summary>
/// <remarks>
/// <para>A band from L1 to 2 L1 is the low-pass of cutoff L1 less that of cutoff 2 L1; a sine passes with
/// <see cref="Texture.OctaveBands.Gain"/>. The slope is the same difference of derivatives of Gaussians. A shift a sin(2 pi s
/// / L) has a slope of rms sqrt 2 pi a / L, times the gain.</para>
/// <para>Only edges of at least eight times the shorter cutoff (four of the longer) count; at either end L1 pixels are left
/// out.</para>
/// <para>Noise of one place leaves sqrt(sum of squared weights) of itself in the band and is taken off in quadrature. The
/// half width from spread is the larger of the scatter of stretches of 4 L1 and of counting: n pixels of a band one octave
/// wide hold n / L1 independent values, so the rms has a relative standard error of 1 / sqrt(2 n / L1).</para>
/// <para>Source: ISO 16610-21:2011 (filter).</para>
/// </remarks>
internal static class TraceBands
{
    internal const double LengthsNeeded = 8.0;

    // Error of interpolated places of sharp edges: seen to stay below this on straight edges of known place
    // (ReflectedEdgeTests).
    internal const double InterpolationPx = 0.02;

    // Neighboring rows share pixels: on average a sixth of the variance of an interpolated place, of two thirds of a pixel's.
    // A band then holds (2/3 + 2/6) / (2/3) = 1.5 times what white noise would leave, and the second difference sees only 4/6
    // of the variance.
    internal const double CorrelatedNoise = 2.25;

    /// <summary>Reads the band; null where no edge is long enough.</summary>
    internal static TraceBand? Read(IReadOnlyList<ReflectedEdge> edges, double shortestPx)
    {
        var slope = BandKernel(shortestPx, GaussianDerivative.First);
        var shift = BandKernel(shortestPx, GaussianFilter.Kernel);
        var (slopes, shifts, noises, codings) = (new List<double>(), 0.0, 0.0, 0.0);
        var (lengths, length) = (new List<double>(), 0.0);
        foreach (var edge in edges)
        {
            if (edge.LengthPx < LengthsNeeded * shortestPx)
            {
                continue;
            }

            var (from, to) = ((int)shortestPx, edge.LengthPx - (int)shortestPx);
            var slopeOfBand = Filter(edge.ResidualsPx, slope, KernelParity.Odd);
            var shiftOfBand = Filter(edge.ResidualsPx, shift, KernelParity.Even);
            var stretches = Math.Max(1, (int)((to - from) / (4.0 * shortestPx)));
            for (var i = 0; i < stretches; i++)
            {
                var (start, end) = (from + ((to - from) * i / stretches), from + ((to - from) * (i + 1) / stretches));
                slopes.Add(MeanSquare(slopeOfBand.AsSpan(start..end)));
                shifts += MeanSquare(shiftOfBand.AsSpan(start..end)) * (end - start);
                noises += edge.NoisePx * edge.NoisePx * (end - start);
                codings += edge.CodingPowerPx3 * (end - start);
                lengths.Add(end - start);
                length += end - start;
            }
        }

        return lengths.Count == 0
            ? null
            : Summarize(slopes, lengths, length, shifts / length, noises / length, codings / length, shortestPx, slope, shift);
    }

    private static TraceBand Summarize(
        List<double> slopes,
        List<double> lengths,
        double length,
        double shift,
        double noise,
        double coding,
        double shortestPx,
        float[] slopeKernel,
        float[] shiftKernel)
    {
        var mean = 0.0;
        for (var i = 0; i < slopes.Count; i++)
        {
            mean += slopes[i] * lengths[i] / length;
        }

        var scatter = 0.0;
        foreach (var square in slopes)
        {
            scatter += (square - mean) * (square - mean);
        }

        var counted = 1.0 / Math.Sqrt(2.0 * length / shortestPx);
        var spread = slopes.Count < 4 || mean <= 0.0
            ? 0.0
            : 0.5 * Math.Sqrt(scatter / (slopes.Count - 1) / slopes.Count) / mean;
        var left = (CorrelatedNoise * noise) + coding + (InterpolationPx * InterpolationPx);
        var (slopeNoise, shiftNoise) = (SumOfSquares(slopeKernel), SumOfSquares(shiftKernel));
        return new(
            Math.Sqrt(Math.Max(0.0, mean - (noise * slopeNoise))),
            Math.Sqrt(Math.Max(0.0, shift - (noise * shiftNoise))),
            1.96 * Math.Max(counted, spread),
            1.96 * Math.Sqrt(left * slopeNoise),
            1.96 * Math.Sqrt(left * shiftNoise));
    }

    // Right half of the difference of two kernels of one parity.
    private static float[] BandKernel(double shortestPx, Func<double, float[]> kernelOfSigma)
    {
        var fine = kernelOfSigma(GaussianFilter.SigmaOfCutoff(shortestPx));
        var coarse = kernelOfSigma(GaussianFilter.SigmaOfCutoff(2.0 * shortestPx));
        var kernel = new float[coarse.Length];
        for (var k = 0; k < kernel.Length; k++)
        {
            kernel[k] = (k < fine.Length ? fine[k] : 0.0f) - coarse[k];
        }

        return kernel;
    }

    private static double SumOfSquares(float[] half)
    {
        var sum = (double)half[0] * half[0];
        for (var k = 1; k < half.Length; k++)
        {
            sum += 2.0 * half[k] * (double)half[k];
        }

        return sum;
    }

    // The trace as a plane of one row: mirrored at its ends, filtered many samples at a time.
    private static float[] Filter(double[] residuals, float[] half, KernelParity parity)
    {
        var source = new Plane(residuals.Length, 1, Array.ConvertAll(residuals, value => (float)value));
        var target = new Plane(residuals.Length, 1);
        SeparableFilter.Apply(source, target, half, [1.0f], parity, KernelParity.Even);
        return target.Values;
    }

    private static double MeanSquare(ReadOnlySpan<float> values)
    {
        var sum = 0.0;
        foreach (var value in values)
        {
            sum += value * (double)value;
        }

        return sum / values.Length;
    }
}
