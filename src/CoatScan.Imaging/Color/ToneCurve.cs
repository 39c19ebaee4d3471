namespace CoatScan.Imaging.Color;

/// <summary>From a stored value to linear light, both [0, 1].</summary>
/// <param name="Evaluate">The function; its result is clipped to [0, 1].</param>
internal sealed record ToneCurve(Func<double, double> Evaluate)
{
    /// <summary>IEC 61966-2-1, from memory.</summary>
    public static ToneCurve Srgb { get; } = new(v => v <= 0.04045 ? v / 12.92 : Math.Pow((v + 0.055) / 1.055, 2.4));

    public static ToneCurve Power(double exponent) => new(v => Math.Pow(v, exponent));

    /// <summary>Linear interpolation between equally spaced 16-bit samples; at least two.</summary>
    public static ToneCurve Sampled(ushort[] samples) => new(v =>
    {
        double at = v * (samples.Length - 1);
        int low = Math.Min((int)at, samples.Length - 2);
        double part = at - low;
        return ((samples[low] * (1 - part)) + (samples[low + 1] * part)) / 65_535;
    });

    /// <summary>The curve at every 8-bit value.</summary>
    public float[] Tabulate()
    {
        var table = new float[256];
        for (int i = 0; i < table.Length; i++)
        {
            table[i] = (float)Math.Clamp(Evaluate(i / 255.0), 0, 1);
        }

        return table;
    }
}
