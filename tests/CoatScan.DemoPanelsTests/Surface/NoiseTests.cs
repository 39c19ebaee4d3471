namespace CoatScan.DemoPanels.Surface;

public sealed class NoiseTests
{
    [Theory]
    [InlineData(4f, 1)]
    [InlineData(6f, 4)]
    public void Fractal_has_about_unit_variance(float cellPx, int octaves)
    {
        var plane = Noise.Fractal(new PanelRandom(3), 400, 400, cellPx, octaves);

        // Some 4,000 to 10,000 independent cells: a few percent of error, plus the approximate gain.
        Assert.InRange(plane.Values.Average(v => (double)v * v), 0.85, 1.15);
    }
}
