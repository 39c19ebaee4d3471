using CoatScan.Metrics;
using CoatScan.Metrics.Filters;
using CoatScan.Metrics.Quality;
using CsCheck;

namespace CoatScan.MetricsTests.Quality;

public sealed class PhotoSharpnessTests
{
    // An edge blurred by a known Gaussian must be read back; the error function is sampled through the filter itself.
    [Theory]
    [InlineData(1.0)]
    [InlineData(1.5)]
    [InlineData(2.0)]
    [InlineData(3.0)]
    [InlineData(4.0)]
    public void Measure_blurred_edges_give_back_their_blur(double sigmaPx)
    {
        var reading = PhotoSharpness.Measure(GaussianFilter.Apply(Squares(60.0), sigmaPx));

        Assert.NotNull(reading);
        Assert.Equal(sigmaPx, reading.Value.EdgeBlurPx, 0.12 * sigmaPx);
    }

    [Fact]
    public void Measure_contrast_does_not_matter()
    {
        var strong = PhotoSharpness.Measure(GaussianFilter.Apply(Squares(60.0), 1.5));
        var weak = PhotoSharpness.Measure(GaussianFilter.Apply(Squares(15.0), 1.5));

        Assert.Equal(strong!.Value.EdgeBlurPx, weak!.Value.EdgeBlurPx, 0.05);
    }

    [Fact]
    public void Measure_more_blur_is_never_sharper() =>
        Gen.Select(Gen.Double[0.6, 5.0], Gen.Double[0.3, 2.0]).Sample(
            (sigma, more) =>
            {
                var less = PhotoSharpness.Measure(GaussianFilter.Apply(Squares(60.0), sigma));
                var blurred = PhotoSharpness.Measure(GaussianFilter.Apply(Squares(60.0), sigma + more));
                return blurred!.Value.EdgeBlurPx > less!.Value.EdgeBlurPx
                    && blurred.Value.ModulationAt8Px < less.Value.ModulationAt8Px;
            },
            iter: 15);

    // A step between two pixels lies half a pixel beside the crest, which reads as half a pixel of blur.
    [Fact]
    public void Measure_sharp_steps_have_next_to_no_blur() =>
        Assert.InRange(PhotoSharpness.Measure(Squares(60.0))!.Value.EdgeBlurPx, 0.0, 0.55);

    [Fact]
    public void Measure_plane_without_edges_or_too_small_is_null()
    {
        Assert.Null(PhotoSharpness.Measure(Pattern.Draw(200, 200, (x, y) => 40.0 + (0.05 * x))));
        Assert.Null(PhotoSharpness.Measure(Pattern.Draw(31, 200, (x, _) => x > 15 ? 80.0 : 20.0)));
        Assert.Null(PhotoSharpness.Measure(Pattern.Noise(200, 200, 5)));
    }

    // exp(-2 pi^2 sigma^2 f^2) at f = 1/8, the Gaussian edge of quality.json.
    [Fact]
    public void ModulationAt8Px_is_the_transform_of_the_gaussian()
    {
        Assert.Equal(1.0, new SharpnessReading(0.0, 100).ModulationAt8Px, 1e-12);
        Assert.Equal(0.2912, new SharpnessReading(2.0, 100).ModulationAt8Px, 1e-4);
    }

    private static Plane Squares(double contrast) => Pattern.Draw(
        240, 200, (x, y) => 20.0 + (x / 40 % 2 == 0 && y / 50 % 2 == 0 ? contrast : 0.0));
}
