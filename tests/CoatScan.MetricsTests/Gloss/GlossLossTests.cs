using CoatScan.Metrics;
using CoatScan.Metrics.Filters;
using CoatScan.Metrics.Gloss;
using CoatScan.Metrics.Quality;
using CsCheck;

namespace CoatScan.MetricsTests.Gloss;

public sealed class GlossLossTests
{
    private static readonly SharpnessReading Sharp = new(0.3, 500);

    // Disk of radius r behind a Gaussian of s: 1.349 s / r over 0.7925, for s much smaller than r.
    [Theory]
    [InlineData(40, 2.0)]
    [InlineData(40, 4.0)]
    [InlineData(30, 3.0)]
    public void Measure_blurred_disk_matches_the_closed_form(int radius, double sigma)
    {
        var result = GlossLoss.Measure(Highlight.Find(Disk(radius, sigma)), 1.0, Sharp);

        Assert.Equal(1.349 * sigma / radius / Highlight.BlobRatio, result.Value!.Value, 0.02);
    }

    // Stated half width against the closed form; a photo's blur may be in the index, so less of it is more certain.
    [Fact]
    public void Measure_uncertainty_covers_the_closed_form_and_grows_with_the_blur_of_the_photo()
    {
        var found = Highlight.Find(Disk(40, 4.0));
        var sharp = GlossLoss.Measure(found, 1.0, Sharp);
        var soft = GlossLoss.Measure(found, 1.0, new SharpnessReading(2.0, 500));

        Assert.InRange(Math.Abs(sharp.Value!.Value - (1.349 * 4.0 / 40.0 / Highlight.BlobRatio)), 0.0, sharp.Uncertainty!.Value);
        Assert.True(soft.Uncertainty > sharp.Uncertainty);
        Assert.True(GlossLoss.Measure(found, 1.0, null).Uncertainty >= sharp.Value);
    }

    // The peak is a percentile and so 3 % below the true one, which costs 0.04.
    [Fact]
    public void Measure_gaussian_blob_is_one()
    {
        var blob = Pattern.Draw(200, 200, (x, y) =>
            0.05 + (0.9 * Math.Exp(-(Math.Pow(x - 100, 2) + Math.Pow(y - 100, 2)) / (2.0 * 20.0 * 20.0))));

        Assert.Equal(1.0, GlossLoss.Measure(Highlight.Find(blob), 1.0, Sharp).Value!.Value, 0.05);
    }

    [Fact]
    public void Measure_softer_edge_reads_higher() =>
        Gen.Select(Gen.Double[1.0, 8.0], Gen.Double[1.2, 2.0]).Sample(
            (sigma, factor) => GlossLoss.Measure(Highlight.Find(Disk(30, factor * sigma)), 1.0, Sharp).Value
                > GlossLoss.Measure(Highlight.Find(Disk(30, sigma)), 1.0, Sharp).Value,
            iter: 12);

    [Fact]
    public void Measure_without_highlight_is_absent()
    {
        var flat = Pattern.Draw(200, 200, (x, _) => 0.2 + (0.0005 * x));
        var cut = Pattern.Draw(200, 200, (x, y) => Math.Pow(x, 2) + Math.Pow(y - 100, 2) < 900 ? 0.9 : 0.05);

        Assert.Equal(GlossLoss.NoHighlight, GlossLoss.Measure(Highlight.Find(flat), 1.0, Sharp).AbsentReason);
        Assert.Equal(GlossLoss.NoHighlight, GlossLoss.Measure(Highlight.Find(cut), 1.0, Sharp).AbsentReason);
    }

    // A chip down to light primer: sharp but far from clipping, or as bright but ragged.
    [Fact]
    public void Find_bright_mark_is_no_highlight()
    {
        var chip = Pattern.Draw(240, 240, (x, y) => Math.Pow(x - 120, 2) + Math.Pow(y - 120, 2) <= 900 ? 0.8 : 0.2);
        var ragged = Pattern.Draw(240, 240, (x, y) =>
            Math.Abs(x - 120) < 40 && Math.Abs(y - 120) < 40 && (Math.Abs(x - 120) < 8 || Math.Abs(y - 120) < 8) ? 1.0 : 0.2);

        Assert.Null(Highlight.Find(chip));
        Assert.Null(Highlight.Find(ragged));
    }

    [Fact]
    public void Measure_blurred_photo_is_absent()
    {
        var result = GlossLoss.Measure(Highlight.Find(Disk(20, 5.0)), 1.0, new SharpnessReading(4.0, 500));

        Assert.Equal(AbsentReasons.Blurred, result.AbsentReason);
    }

    [Fact]
    public void Measure_soft_highlight_without_any_edge_is_absent_but_a_sharp_one_counts()
    {
        Assert.Equal(GlossLoss.FocusUnknown, GlossLoss.Measure(Highlight.Find(Disk(20, 8.0)), 1.0, null).AbsentReason);
        Assert.NotNull(GlossLoss.Measure(Highlight.Find(Disk(40, 1.0)), 1.0, null).Value);
    }

    private static Plane Disk(int radius, double sigma) => GaussianFilter.Apply(
        Pattern.Draw(240, 240, (x, y) => Math.Pow(x - 120, 2) + Math.Pow(y - 120, 2) <= radius * radius ? 1.0 : 0.05), sigma);
}
