using System.Globalization;
using CoatScan.Metrics;
using CoatScan.Metrics.Lines;

namespace CoatScan.MetricsTests.Lines;

public sealed class RidgeFilterTests
{
    // Closed form A s^2 w / (w^2 + s^2)^(3/2), tabled in ridges.json for A = 0.8.
    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    public void Apply_gaussian_line_matches_the_closed_form(int width)
    {
        using var scope = new PlaneScope();
        var line = Pattern.Draw(96, 96, (x, _) => 1.0 - (0.8 * Math.Exp(-(x - 48.0) * (x - 48.0) / (2.0 * width * width))));
        var tabled = ReferenceData.Read("ridges").GetProperty("cases")
            .GetProperty(string.Create(CultureInfo.InvariantCulture, $"gauss_line_w{width}")).GetProperty("theory_s2_Lxx");
        foreach (var entry in tabled.EnumerateObject())
        {
            var sigma = double.Parse(entry.Name, CultureInfo.InvariantCulture);
            var tolerance = sigma < 2.0 ? 0.003 : 5e-4;
            var dark = RidgeFilter.Apply(line, sigma, scope);
            var bright = RidgeFilter.Apply(Pattern.Draw(96, 96, (x, y) => -line[y, x]), sigma, scope);

            Assert.Equal(entry.Value.GetDouble(), dark[48, 48], tolerance);
            Assert.Equal(-entry.Value.GetDouble(), bright[48, 48], tolerance);
        }
    }

    [Fact]
    public void Apply_constant_and_ramp_give_nothing()
    {
        using var scope = new PlaneScope();
        var ramp = Pattern.Draw(64, 64, (x, y) => 50.0 + (0.5 * x) - (0.2 * y));

        var response = RidgeFilter.Apply(ramp, 1.5, scope);

        Assert.Equal(0.0, response[32, 32], 1e-4);
    }
}
