using CoatScan.Metrics;
using CoatScan.Metrics.Lines;

namespace CoatScan.MetricsTests.Lines;

public sealed class LineWidthTests
{
    // components.json: a bar of 5 x 100. (Area over thinned pixels gives 5.15 there, as thinning shortens the bar.)
    [Fact]
    public void Of_bar_of_the_reference_has_its_width_and_contrast()
    {
        var width = Profile((x, y) => x is >= 20 and < 120 && y is >= 38 and < 43 ? 30 : 60);

        Assert.Equal(5.0, width.WidthPx.Value, 0.3);
        Assert.Equal(-30.0, width.Contrast.Value, 0.5);
    }

    // A Gaussian of s has the full width 2.3548 s at half height.
    [Theory]
    [InlineData(1.2)]
    [InlineData(2.0)]
    public void Of_gaussian_line_has_its_closed_form_width(double sigma)
    {
        var width = Profile((x, y) => 60 + (20 * Math.Exp(-0.5 * Math.Pow((y - (0.4 * x) - 10) / 1.077 / sigma, 2.0))));

        Assert.Equal(2.3548 * sigma, width.WidthPx.Value, 0.25);
        Assert.True(width.Contrast.Value > 15.0);
    }

    [Fact]
    public void Of_line_on_a_slope_of_light_has_the_same_width()
    {
        var width = Profile((x, y) => (x is >= 20 and < 120 && y is >= 38 and < 43 ? 30 : 60) + (0.3 * y));

        Assert.Equal(5.0, width.WidthPx.Value, 0.3);
        Assert.Equal(-30.0, width.Contrast.Value, 1.0);
    }

    private static LineWidth Profile(Func<int, int, double> value)
    {
        using var scope = new PlaneScope();
        var plane = Pattern.Draw(140, 80, value);
        return LineWidth.Of(plane, LineReading.Of(LineFinder.Find(plane, scope)).Lines, 1.0)!;
    }
}
