using CoatScan.Metrics;

namespace CoatScan.DemoPanels.Surface;

public sealed class BlurTests
{
    [Fact]
    public void Soft_point_spreads_to_the_variance_asked_for_and_keeps_its_sum()
    {
        var point = new Plane(81, 81);
        point[40, 40] = 1f;

        // Boxes are whole pixels wide; three of 11 px have the variance 3 (11^2 - 1) / 12 = 30.
        var soft = Blur.Soft(point, MathF.Sqrt(30f));

        double sum = 0, variance = 0;
        for (var y = 0; y < 81; y++)
        {
            for (var x = 0; x < 81; x++)
            {
                sum += soft[x, y];
                variance += soft[x, y] * (x - 40.0) * (x - 40.0);
            }
        }

        Assert.Equal(1.0, sum, 1e-3);
        Assert.Equal(30.0, variance, 0.01);
    }
}
