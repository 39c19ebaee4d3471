using CoatScan.Metrics;
using CoatScan.Metrics.Filters;
using CoatScan.Metrics.Quality;

namespace CoatScan.MetricsTests.Quality;

public sealed class LaplacianVarianceTests
{
    // Closed form of quality.json: (A / 2)^2 (2 (2 cos(2 pi / 8) - 2))^2 over whole periods, here 8 x 8 of them inside a frame.
    // The table's rounded picture is no exact oracle: half of its pixels lie on a tie of the rounding.
    [Fact]
    public void Measure_product_of_sines_matches_the_closed_form()
    {
        var tabled = ReferenceData.Read("quality").GetProperty("lapvar");

        Assert.Equal(tabled.GetProperty("theory_sharp").GetDouble(), LaplacianVariance.Measure(Sines()), 0.1);
    }

    [Fact]
    public void Measure_blurred_product_of_sines_falls_as_the_closed_form()
    {
        foreach (var entry in ReferenceData.Read("quality").GetProperty("lapvar").GetProperty("theory_blur").EnumerateObject())
        {
            var sigma = double.Parse(entry.Name, System.Globalization.CultureInfo.InvariantCulture);
            if (sigma < 1.0)
            {
                continue; // A Gaussian of half a pixel is too coarsely sampled for the closed form.
            }

            var blurred = GaussianFilter.Apply(Sines(82), sigma);
            var inner = Pattern.Draw(66, 66, (x, y) => blurred[x + 8, y + 8]);
            var expected = entry.Value.GetDouble();
            Assert.Equal(expected, LaplacianVariance.Measure(inner), (0.01 * expected) + 0.05);
        }
    }

    [Fact]
    public void Measure_constant_or_tiny_plane_is_zero()
    {
        Assert.Equal(0.0, LaplacianVariance.Measure(Pattern.Draw(20, 20, (_, _) => 9.0)));
        Assert.Equal(0.0, LaplacianVariance.Measure(new Plane(2, 9)));
    }

    private static Plane Sines(int side = 66) => Pattern.Draw(side, side, (x, y) =>
        127.5 + (100.0 * Math.Sin(2.0 * Math.PI * x / 8.0) * Math.Sin(2.0 * Math.PI * y / 8.0)));
}
