using CoatScan.Metrics;
using CoatScan.Metrics.Filters;
using CsCheck;

namespace CoatScan.MetricsTests.Filters;

public sealed class AreaReductionTests
{
    [Fact]
    public void Apply_any_size_keeps_the_mean() =>
        Gen.Select(Gen.Int[1, 40], Gen.Int[1, 40], Gen.Int[1, 40], Gen.Int[1, 40]).Sample(
            (width, height, first, second) =>
            {
                var source = Pattern.Noise(width, height, width + (50 * height));
                var target = AreaReduction.Apply(source, Math.Min(first, width), Math.Min(second, height));
                return Math.Abs(source.Values.Average() - target.Values.Average()) < 1e-4;
            },
            iter: 200);

    [Fact]
    public void Apply_fractional_ratio_weights_by_covered_area()
    {
        var source = new Plane(3, 1, [1.0f, 4.0f, 7.0f]);

        var target = AreaReduction.Apply(source, 2, 1);

        // Each half is one and a half pixels: (1 + 4 / 2) / 1.5 and (4 / 2 + 7) / 1.5.
        Assert.Equal(2.0, target[0, 0], 1e-6);
        Assert.Equal(6.0, target[1, 0], 1e-6);
    }

    [Theory]
    [InlineData(4000, 3000, 512, 384)]
    [InlineData(300, 200, 300, 200)]
    [InlineData(5000, 1, 512, 1)]
    public void Fit_long_side_is_limited(int width, int height, int expectedWidth, int expectedHeight) =>
        Assert.Equal((expectedWidth, expectedHeight), AreaReduction.Fit(width, height, 512));

    [Fact]
    public void Apply_larger_target_is_refused() =>
        Assert.Throws<ArgumentOutOfRangeException>(() => AreaReduction.Apply(new Plane(4, 4), 5, 4));
}
