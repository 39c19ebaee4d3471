namespace CoatScan.Metrics.Filters;

/// <summary>Gaussian low-pass filter of a plane, separable, mirrored at the borders.</summary>
/// <remarks>
/// <para>The weights are samples of the Gaussian out to four standard deviations, normalized to sum 1.</para>
/// <para>Cutoff form: a filter of cutoff wavelength Lc passes half of a sine of wavelength Lc, and 2^-(Lc/L)^2 of wavelength
/// L. Source: ISO 16610-21:2011; alpha = sqrt(ln 2 / pi) = 0.4697186, hence sigma = alpha Lc / sqrt(2 pi).</para>
/// <para>Cost: O(n sigma) time, no scratch plane. Deterministic.</para>
/// </remarks>
public static class GaussianFilter
{
    /// <summary>Standard deviation over cutoff wavelength, alpha / sqrt(2 pi).</summary>
    public const double SigmaPerCutoff = 0.18739062512;

    private const double RadiusInSigmas = 4.0;

    /// <summary>Standard deviation of the filter with this cutoff wavelength, in the cutoff's own unit.</summary>
    public static double SigmaOfCutoff(double cutoff) => SigmaPerCutoff * cutoff;

    /// <summary>Gain of the low-pass for a sine, [0, 1]: 2^-(cutoff/wavelength)^2.</summary>
    public static double Gain(double cutoff, double wavelength)
    {
        var ratio = cutoff / wavelength;
        return Math.Exp(-Math.Log(2.0) * ratio * ratio);
    }

    /// <summary>A new plane, low-passed with a standard deviation in pixels, above 0.</summary>
    public static Plane Apply(Plane source, double sigmaPx)
    {
        ArgumentNullException.ThrowIfNull(source);
        var target = new Plane(source.Width, source.Height);
        Apply(source, target, sigmaPx);
        return target;
    }

    /// <summary>Low-passes one plane into another of the same size; the two must not share samples.</summary>
    /// <exception cref="ArgumentException">The planes differ in size or are one.</exception>
    public static void Apply(Plane source, Plane target, double sigmaPx)
    {
        var kernel = Kernel(sigmaPx);
        SeparableFilter.Apply(source, target, kernel, kernel, KernelParity.Even, KernelParity.Even);
    }

    /// <summary>Low-passes a plane without keeping the result: row by row it is handed on while it is in the processor's cache.</summary>
    internal static void Stream(Plane source, double sigmaPx, FilteredRow take)
    {
        var kernel = Kernel(sigmaPx);
        SeparableFilter.Stream(source, take, kernel, kernel, KernelParity.Even, KernelParity.Even);
    }

    /// <summary>Right half of the kernel: the center weight first.</summary>
    internal static float[] Kernel(double sigmaPx)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(sigmaPx);
        var radius = Math.Max(1, (int)Math.Ceiling(RadiusInSigmas * sigmaPx));
        var weights = new double[radius + 1];
        var sum = 0.0;
        for (var i = 0; i <= radius; i++)
        {
            weights[i] = Math.Exp(-0.5 * i * i / (sigmaPx * sigmaPx));
            sum += i == 0 ? weights[i] : 2.0 * weights[i];
        }

        return Array.ConvertAll(weights, weight => (float)(weight / sum));
    }
}
