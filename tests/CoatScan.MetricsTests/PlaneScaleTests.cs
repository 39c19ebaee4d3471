using CoatScan.Metrics;

namespace CoatScan.MetricsTests;

/// <summary>Against the closed form of a pinhole camera over a tilted plane: focal length f, distance d, tilt t about the y axis.</summary>
public sealed class PlaneScaleTests
{
    private const double FocalPx = 1000;
    private const double DistanceMm = 400;
    private static readonly double[,] Exact = new double[8, 8];

    // X = d u / (cos t - u sin t), Y = d v cos t / (cos t - u sin t), with u = x / f, v = y / f.
    private static PlaneScale Tilted(double degrees, double[,]? covariance = null)
    {
        double tan = Math.Tan(degrees * Math.PI / 180);
        double cos = Math.Cos(degrees * Math.PI / 180);
        return new PlaneScale([1 / cos, 0, 0, 0, 1, 0, -tan, 0], covariance ?? Exact, (0, 0), FocalPx, DistanceMm, 0);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(30)]
    [InlineData(45)]
    public void MmPerPxAt_center_is_distance_over_focal_length_and_root_of_cosine(double degrees)
    {
        double mean = DistanceMm / FocalPx / Math.Sqrt(Math.Cos(degrees * Math.PI / 180));

        Assert.Equal(mean, Tilted(degrees).MmPerPxAt(0, 0)!.Value, 1e-9);
        Assert.Equal(mean * mean, Tilted(degrees).AreaMm2PerPx2At(0, 0)!.Value, 1e-9);
    }

    [Fact]
    public void LengthMm_across_and_along_the_tilt_differ_by_the_cosine()
    {
        PlaneScale scale = Tilted(45);
        double along = scale.LengthMm(-0.5, 0, 0.5, 0)!.Value;
        double across = scale.LengthMm(0, -0.5, 0, 0.5)!.Value;

        Assert.Equal(Math.Sqrt(0.5), across / along, 1e-6);
    }

    [Fact]
    public void MmPerPxAt_grows_with_the_power_of_three_halves_of_depth()
    {
        PlaneScale scale = Tilted(30);
        double depth = 1 / (1 - (0.2 * Math.Tan(Math.PI / 6)));

        Assert.Equal(Math.Pow(depth, 1.5), scale.MmPerPxAt(200, 0)!.Value / scale.MmPerPxAt(0, 0)!.Value, 1e-9);
    }

    [Fact]
    public void Beyond_the_horizon_there_is_no_scale()
    {
        PlaneScale scale = Tilted(45);

        Assert.Null(scale.MmPerPxAt(1001, 0));
        Assert.Null(scale.AreaMm2PerPx2At(1001, 0));
        Assert.Null(scale.UncertaintyAt(1001, 0));
        Assert.Null(scale.LengthMm(0, 0, 1001, 0));
    }

    [Fact]
    public void Constant_is_the_same_everywhere()
    {
        PlaneScale scale = PlaneScale.Constant(0.2, 0.1);

        Assert.Equal(0.2, scale.MmPerPxAt(3000, 10)!.Value, 1e-12);
        Assert.Equal(1.0, scale.LengthMm(0, 0, 3, 4)!.Value, 1e-12);
        Assert.Equal(0.1, scale.UncertaintyAt(5, 5)!.Value, 1e-12);
        Assert.Equal(0, scale.SpreadOver(4000, 3000, 0.2), 1e-12);
        Assert.Equal(0.25, scale.SpreadOver(4000, 3000, 0.16), 1e-9);
    }

    [Fact]
    public void Times_keeps_the_perspective()
    {
        PlaneScale scale = Tilted(30).Times(2, 0.1);

        Assert.Equal(2 * Tilted(30).MmPerPxAt(100, 50)!.Value, scale.MmPerPxAt(100, 50)!.Value, 1e-9);
        Assert.Equal(0.1, scale.UncertaintyAt(0, 0)!.Value, 1e-12);
    }

    [Fact]
    public void Enlarged_says_the_same_of_the_same_place()
    {
        Assert.Equal(Tilted(30).MmPerPxAt(100, 50)!.Value / 2.5, Tilted(30).Enlarged(2.5).MmPerPxAt(250, 125)!.Value, 1e-9);
        Assert.Equal(Tilted(30).LengthMm(0, 0, 80, 60)!.Value, Tilted(30).Enlarged(2.5).LengthMm(0, 0, 200, 150)!.Value, 1e-9);
    }

    [Fact]
    public void SpreadOver_rises_with_the_tilt_and_ends_at_1()
    {
        double[] spreads = [.. new[] { 0.0, 5, 10, 20, 30, 45 }.Select(tilt => Tilted(tilt).SpreadOver(700, 500, Tilted(tilt).MmPerPxAt(0, 0)!.Value))];

        Assert.Equal(spreads.Order(), spreads);
        Assert.Equal(0, spreads[0], 1e-6);
        Assert.Equal(1, Tilted(60).SpreadOver(4000, 3000, 0.5));
    }

    [Fact]
    public void UncertaintyAt_grows_away_from_where_the_map_was_fitted()
    {
        // One element uncertain: the perspective. ln(area) changes by -3 u for each unit of it, the length's by half of that.
        var covariance = new double[8, 8];
        covariance[6, 6] = 0.01 * 0.01;
        PlaneScale scale = Tilted(0, covariance);

        Assert.Equal(0, scale.UncertaintyAt(0, 0)!.Value, 1e-6);
        Assert.Equal(1.96 * 1.5 * 0.3 * 0.01, scale.UncertaintyAt(300, 0)!.Value, 1e-4);
    }

    [Fact]
    public void Constructor_refuses_what_is_no_scale()
    {
        Assert.Throws<ArgumentException>(() => new PlaneScale([1, 0, 0], Exact, (0, 0), 1, 1, 0));
        Assert.Throws<ArgumentException>(() => new PlaneScale(new double[8], new double[3, 3], (0, 0), 1, 1, 0));
        Assert.Throws<ArgumentException>(() => PlaneScale.Constant(0, 0.1));
        Assert.Throws<ArgumentException>(() => PlaneScale.Constant(double.NaN, 0.1));
        Assert.Throws<ArgumentException>(() => PlaneScale.Constant(0.1, -1));
    }
}
