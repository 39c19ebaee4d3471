namespace CoatScan.Metrics.Reflection;

/// <summary>The one wavelength that rules a trace, if there is one.</summary>
/// <remarks>
/// <para>Strongest frequency of the residuals under a Hann window, from four periods in the length to a wavelength of 4 px,
/// in steps of one cycle a length and refined by parabolas: the window widens a peak to four steps. It rules if the sine of
/// that frequency holds half of the mean square that is not noise.</para>
/// <para>Half width: half of one cycle a length, the resolution of the length. Cost: O(length squared) of the longest
/// edge.</para>
/// </remarks>
internal static class TraceSpectrum
{
    private const int FewestPeriods = 4;
    private const double ShortestPx = 4.0;
    private const double RulingShare = 0.5;

    /// <summary>Wavelength along the edge and its 95 % half width, pixels; null if none rules.</summary>
    internal static (double WavelengthPx, double HalfWidthPx)? Dominant(ReflectedEdge edge)
    {
        var values = edge.ResidualsPx;
        var most = (int)(values.Length / ShortestPx);
        var (best, bestPower) = (0, 0.0);
        for (var cycles = FewestPeriods; cycles <= most; cycles++)
        {
            var power = Power(values, cycles, isWindowed: true);
            (best, bestPower) = power > bestPower ? (cycles, power) : (best, bestPower);
        }

        if (best == 0)
        {
            return null;
        }

        var peak = Refine(values, Refine(values, best, 0.5), 0.25);
        var square = values.Sum(value => value * value) / values.Length;
        var signal = square - (edge.NoisePx * edge.NoisePx) - (TraceBands.InterpolationPx * TraceBands.InterpolationPx);
        if (signal <= 0.0 || Power(values, peak, isWindowed: false) < RulingShare * signal)
        {
            return null;
        }

        var wavelength = values.Length / peak;
        return (wavelength, 0.5 * wavelength / peak);
    }

    // The top of a parabola through three powers.
    private static double Refine(double[] values, double cycles, double step)
    {
        var (before, here, after) = (
            Power(values, cycles - step, isWindowed: true),
            Power(values, cycles, isWindowed: true),
            Power(values, cycles + step, isWindowed: true));
        var bend = before - (2.0 * here) + after;
        return bend < 0.0 ? cycles + (step * Math.Clamp(0.5 * (before - after) / bend, -1.0, 1.0)) : cycles;
    }

    // Mean square of the sine that fits best at this frequency.
    private static double Power(double[] values, double cycles, bool isWindowed)
    {
        var turn = 2.0 * Math.PI * cycles / values.Length;
        var (turnSine, turnCosine) = Math.SinCos(turn);
        var (windowSine, windowCosine) = Math.SinCos(2.0 * Math.PI / values.Length);
        var (sine, cosine, inWindowSine, inWindowCosine) = (0.0, 1.0, 0.0, 1.0);
        var (real, imaginary) = (0.0, 0.0);
        foreach (var value in values)
        {
            var weighted = isWindowed ? value * (1.0 - inWindowCosine) : value;
            real += weighted * cosine;
            imaginary += weighted * sine;
            (sine, cosine) = ((sine * turnCosine) + (cosine * turnSine), (cosine * turnCosine) - (sine * turnSine));
            (inWindowSine, inWindowCosine) = (
                (inWindowSine * windowCosine) + (inWindowCosine * windowSine),
                (inWindowCosine * windowCosine) - (inWindowSine * windowSine));
        }

        return 2.0 * ((real * real) + (imaginary * imaginary)) / ((double)values.Length * values.Length);
    }
}
