using CoatScan.Findings;

namespace CoatScan.Metrics.Ratings;

/// <summary>Rust: ISO 4628-3 and ASTM D610, each from the area itself.</summary>
internal static class RustRatings
{
    internal const string Area = "rust_colored_fraction";

    internal static void Add(MeasuredPhoto photo, List<Rating> ratings)
    {
        var area = photo[Area]!;
        var (percent, half) = (100.0 * area.Value!.Value, 100.0 * (area.Uncertainty ?? 0.0));
        var seen = $"{RatingText.Percent(area)} of the area seen in photo {photo.Number} has the color of rust; "
            + "soil and mottled primer may be in it";
        var degree = RatedRange.Of(percent, half, Iso4628Rust.Degree);
        var size = photo["rust_patch_large_mm"];
        var sizeText = size is null ? "no size class without a scale" : $"size by ISO 4628-1, limits from memory: {RatingText.Millimeters(size)}";
        ratings.Add(new(
            "ISO 4628-3",
            size is null
                ? $"Ri {degree.Class}{degree.Spread("Ri ")}"
                : SizeRatings.Designation($"Ri {degree.Class}", degree.Spread("Ri "), RatedRange.Of(size, Iso4628Size.Class)),
            $"{seen}; nearest nominal area (0.05, 0.5, 1, 8, 40 to 50 %), our convention, the standard's pictures have no limits; {sizeText}"));

        var grade = RatedRange.Of(percent, half, AstmD610.Grade);
        var nearest = photo["rust_nearest_ratio"];
        var letter = RustDistribution.Letter(size?.Value, nearest?.Value, nearest?.Uncertainty);
        var letterText = letter is null
            ? "no distribution letter, because without a scale pinpoint and general look alike"
            : "distribution letter by our convention";
        ratings.Add(new(
            "ASTM D610",
            $"{grade.Class}{(letter is null ? "" : $"-{letter}")}{grade.Spread("")}",
            $"{seen}; limits of the standard's table; {letterText}"));
    }
}
