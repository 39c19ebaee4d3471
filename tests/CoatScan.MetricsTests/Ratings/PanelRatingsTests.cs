using CoatScan.Findings;
using CoatScan.Metrics.Ratings;

namespace CoatScan.MetricsTests.Ratings;

public sealed class PanelRatingsTests
{
    [Fact]
    public void Rate_rust_by_both_standards_each_from_the_area()
    {
        var ratings = Rate([Of("rust_colored_fraction", 0.02, 0.001)], RatingSubject.Rust);

        Assert.Equal(["ISO 4628-3", "ASTM D610"], ratings.Select(rating => rating.Standard));
        Assert.Equal("Ri 3", ratings[0].Designation);
        Assert.Equal("5-S", ratings[1].Designation);
        Assert.Contains("2 % give or take 0.1 % of the area seen in photo 1", ratings[0].Basis, StringComparison.Ordinal);
        Assert.Contains("our convention", ratings[0].Basis, StringComparison.Ordinal);
    }

    [Fact]
    public void Rate_interval_over_a_limit_says_so()
    {
        var ratings = Rate([Of("rust_colored_fraction", 0.0306, 0.01)], RatingSubject.Rust);

        Assert.Equal("Ri 4 (Ri 3 to Ri 4 within the uncertainty)", ratings[0].Designation);
        Assert.Equal("4-S (4 to 5 within the uncertainty)", ratings[1].Designation);
    }

    [Theory]
    [InlineData(0.5, 1.2, "5-P")] // Specks of half a millimeter, evenly.
    [InlineData(4.0, 1.2, "5-G")]
    [InlineData(4.0, 0.5, "5-S")] // In clusters.
    [InlineData(null, 1.2, "5")] // Many, no scale: P and G look alike.
    [InlineData(null, 0.5, "5-S")]
    [InlineData(4.0, null, "5-S")] // Under eight patches there is no ratio.
    public void Rate_rust_has_the_letter_of_its_pattern(double? largeMm, double? nearest, string designation)
    {
        var measurements = new List<Measurement> { Of("rust_colored_fraction", 0.02, 0.001) };
        if (largeMm is { } size)
        {
            measurements.Add(Of("rust_patch_large_mm", size, 0.1));
        }

        if (nearest is { } ratio)
        {
            measurements.Add(Of("rust_nearest_ratio", ratio, 0.2));
        }

        Assert.Equal(designation, Rate(measurements, RatingSubject.Rust)[1].Designation);
    }

    [Fact]
    public void Rate_rust_with_scale_has_a_size() => Assert.StartsWith(
        "Ri 3(S4)",
        Rate([Of("rust_colored_fraction", 0.02, 0.001), Of("rust_patch_large_mm", 4.0, 0.1)], RatingSubject.Rust)[0].Designation,
        StringComparison.Ordinal);

    [Fact]
    public void Rate_size_over_a_limit_says_so() => Assert.Equal(
        "4(S4) (S3 to S4 within the uncertainty)",
        Rate([Of("film_loss_fraction", 0.03, 0.001), Of("film_loss_large_mm", 10.5, 1.0)], RatingSubject.FilmLoss)[0].Designation);

    [Fact]
    public void Rate_flaking_has_quantity_size_and_no_depth()
    {
        var rating = Assert.Single(Rate(
            [Of("film_loss_fraction", 0.030625, 0.002), Of("film_loss_large_mm", 12.0, 1.0)], RatingSubject.FilmLoss));

        Assert.Equal("4(S4)", rating.Designation);
        Assert.Contains("from memory", rating.Basis, StringComparison.Ordinal);
        Assert.Contains("depth a or b is not told", rating.Basis, StringComparison.Ordinal);
        Assert.Equal("4", Rate([Of("film_loss_fraction", 0.030625, 0.002)], RatingSubject.FilmLoss)[0].Designation);
    }

    [Fact]
    public void Rate_blisters_has_a_size_and_says_why_no_quantity()
    {
        var rating = Assert.Single(Rate(
            [Of("spot_diameter_large_mm", 3.0, 0.2), Of("spot_area_fraction", 0.05, 0.01)], RatingSubject.Blisters));

        Assert.Equal(("ISO 4628-2", "S4"), (rating.Standard, rating.Designation));
        Assert.Contains("pictures without published areas", rating.Basis, StringComparison.Ordinal);
    }

    [Fact]
    public void Rate_spots_and_cracks_have_sizes_alone()
    {
        Assert.Equal(
            "S3 (S3 to S4 within the uncertainty)",
            Rate([Of("spot_diameter_large_mm", 0.48, 0.1)], RatingSubject.Spots)[0].Designation);
        Assert.Equal("S5", Rate([Of("line_width_mm", 1.5, 0.2)], RatingSubject.Cracks)[0].Designation);
        Assert.Equal("S4 or less", Rate([Of("line_width_mm", 0.4, 0.2)], RatingSubject.Cracks)[0].Designation);
    }

    // A size, an area, or the thing itself is missing: no rating rather than a guess.
    [Fact]
    public void Rate_what_is_not_measured_not_found_or_not_there_is_none()
    {
        Measurement[] measured = [Of("rust_colored_fraction", 0.02, 0.001), Of("film_loss_fraction", 0.0, 0.001)];

        Assert.Empty(Rate(measured, RatingSubject.FilmLoss));
        Assert.Empty(Rate(measured, RatingSubject.Blisters));
        Assert.Empty(Rate([Measurement.Absent("rust_colored_fraction", "1", "too dark")], RatingSubject.Rust));
        Assert.Empty(PanelRatings.Rate(measured, new HashSet<RatingSubject>()));
    }

    [Fact]
    public void Rate_several_photos_by_the_one_that_shows_most()
    {
        var ratings = Rate(
            [Of("rust_colored_fraction", 0.0002, 0.0), Of("rust_colored_fraction", 0.06, 0.0) with { PhotoIndex = 1 }],
            RatingSubject.Rust);

        Assert.Equal("Ri 4", ratings[0].Designation);
        Assert.Contains("photo 2", ratings[0].Basis, StringComparison.Ordinal);
    }

    private static IReadOnlyList<Rating> Rate(IReadOnlyList<Measurement> measurements, RatingSubject subject) =>
        PanelRatings.Rate(measurements, new HashSet<RatingSubject> { subject });

    private static Measurement Of(string metric, double value, double uncertainty) =>
        Measurement.Of(metric, value, "1", uncertainty);
}
