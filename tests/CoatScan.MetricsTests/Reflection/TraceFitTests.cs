using CoatScan.Metrics.Reflection;

namespace CoatScan.MetricsTests.Reflection;

public sealed class TraceFitTests
{
    // Panel curvature and waviness are told apart by length: a cubic goes, a wave of a tenth of the length stays.
    [Fact]
    public void Residuals_cubic_is_taken_off_and_a_short_wave_stays()
    {
        var wave = Trace(i => 2.0 * Math.Sin(2.0 * Math.PI * i / 60.0));
        var residuals = TraceFit.Residuals(Trace(i => Bow(i) + wave[i]));

        Assert.Equal(Math.Sqrt(2.0), Rms(residuals), 0.03);
        Assert.InRange(Rms(TraceFit.Residuals(Trace(Bow))), 0.0, 1e-6);
    }

    // Tukey's weights: a chip that moves a fifteenth of the edge by 30 px does not bend the curve of the rest.
    [Fact]
    public void Residuals_flaw_of_the_edge_does_not_bend_the_curve()
    {
        var random = new Random(3);
        var residuals = TraceFit.Residuals(
            Trace(i => Bow(i) + (0.1 * Pattern.Normal(random)) + (i is > 400 and < 440 ? 30.0 : 0.0)));

        Assert.InRange(Rms(residuals[..380]), 0.0, 0.12);
        Assert.InRange(residuals[420], 29.0, 31.0);
    }

    [Fact]
    public void Dominant_trace_of_noise_has_no_ruling_wavelength_and_of_a_sine_its_own()
    {
        var random = new Random(4);

        Assert.Null(TraceSpectrum.Dominant(Edge(Trace(_ => 0.1 * Pattern.Normal(random)))));
        Assert.Null(TraceSpectrum.Dominant(Edge([0.1, -0.1, 0.1])));
        var found = TraceSpectrum.Dominant(Edge(Trace(i => Math.Sin(2.0 * Math.PI * i / 37.3))));
        Assert.Equal(37.3, found!.Value.WavelengthPx, 0.1);
        Assert.Equal(0.5 * 37.3 * 37.3 / 600.0, found.Value.HalfWidthPx, 0.05);
    }

    // Steps every 8 px with independent errors of variance 0.04 have the power 0.04 x 8 px; white noise has next to none.
    [Fact]
    public void PowerPx3_block_errors_are_told_from_noise()
    {
        var random = new Random(5);
        var errors = Enumerable.Range(0, 80).Select(_ => 0.2 * Pattern.Normal(random)).ToArray();

        Assert.InRange(TraceCoding.PowerPx3(Trace(i => errors[(i + 3) / 8]), (1.0, 0.0), 1.0), 0.16, 0.64);
        Assert.InRange(TraceCoding.PowerPx3(Trace(_ => 0.02 * Pattern.Normal(random)), (1.0, 0.0), 1.0), 0.0, 0.01);
        Assert.Equal(0.0, TraceCoding.PowerPx3(Trace(i => errors[i / 8]), (1.0, 0.0), 4.0));
    }

    private static double Bow(int i) => (1e-3 * (i - 250.0) * (i - 250.0)) + (4e-6 * Math.Pow(i - 300.0, 3.0)) + (0.3 * i);

    private static double[] Trace(Func<int, double> position) => [.. Enumerable.Range(0, 600).Select(position)];

    private static double Rms(double[] values) => Math.Sqrt(values.Average(value => value * value));

    private static ReflectedEdge Edge(double[] residuals) => new()
    {
        ResidualsPx = residuals,
        NoisePx = 0.0,
        CodingPowerPx3 = 0.0,
        BlurPx = [],
        IsClipped = false,
    };
}
