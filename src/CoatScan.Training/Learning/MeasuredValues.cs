using CoatScan.Metrics;

namespace CoatScan.Training.Learning;

/// <summary>The product's measurements as numbers for the comparison of models: value and whether there is one, in the metric set's order.</summary>
internal static class MeasuredValues
{
    // Counts and densities run over decades; the cube root keeps signs and tames the large ones.
    public static float[] Of(PanelMeasurements measurements) =>
    [
        .. measurements.Measurements.SelectMany(one =>
            new[] { (float)Math.Cbrt(one.Value ?? 0), one.Value is null ? 0f : 1f }),
    ];
}
