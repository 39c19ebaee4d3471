using CoatScan.Findings;

namespace CoatScan.Metrics.Ratings;

/// <summary>Size classes of blisters, cracks and other marks, where a scale gives millimeters; their amounts have no published numbers.</summary>
internal static class SizeRatings
{
    internal const string SpotSize = "spot_diameter_large_mm";
    internal const string CrackWidth = "line_width_mm";

    internal static Rating OfBlisters(MeasuredPhoto photo) => new(
        "ISO 4628-2",
        SizeOf(photo[SpotSize]!, Iso4628Size.Class),
        $"{Large(photo)}; limits of ISO 4628-1 from memory. Quantity is not rated: the standard shows pictures without published areas, "
        + "so hold them beside the panel; count and density are among the measurements");

    internal static Rating OfSpots(MeasuredPhoto photo) => new(
        "ISO 4628-1",
        SizeOf(photo[SpotSize]!, Iso4628Size.Class),
        $"{Large(photo)}; limits from memory of the standard. Quantity is not rated: its classes are words without numbers; "
        + "count and density are among the measurements");

    internal static Rating OfCracks(MeasuredPhoto photo) => new(
        "ISO 4628-4",
        SizeOf(photo[CrackWidth]!, Iso4628Size.CrackSize).Replace("S4", "S4 or less", StringComparison.Ordinal),
        $"lines in photo {photo.Number} are {RatingText.Millimeters(photo[CrackWidth]!)} wide; the one numbered limit, 1 mm, from memory of the "
        + "standard. Quantity has no published numbers, and depth a, b or c is not told by a photo");

    /// <summary>Amount and size in one designation, for example <c>4(S3)</c>, and what the uncertainty leaves open of either.</summary>
    internal static string Designation(string amount, string amountSpread, RatedRange size) =>
        $"{amount}(S{size.Class}){amountSpread}{size.Spread("S")}";

    private static string SizeOf(Measurement size, Func<double, int> rate)
    {
        var range = RatedRange.Of(size, rate);
        return $"S{range.Class}{range.Spread("S")}";
    }

    private static string Large(MeasuredPhoto photo) =>
        $"one spot in ten of photo {photo.Number} is wider than {RatingText.Millimeters(photo[SpotSize]!)}";
}
