using CoatScan.Findings;

namespace CoatScan.Metrics.Ratings;

/// <summary>Flaked and peeled film: ISO 4628-5.</summary>
internal static class LossRatings
{
    internal const string Area = "film_loss_fraction";

    internal static void Add(MeasuredPhoto photo, List<Rating> ratings)
    {
        var area = photo[Area]!;
        var quantity = RatedRange.Of(100.0 * area.Value!.Value, 100.0 * (area.Uncertainty ?? 0.0), Iso4628Flaking.Quantity);
        var size = photo["film_loss_large_mm"];
        var sizeText = size is null ? "no size class without a scale" : $"largest typical {RatingText.Millimeters(size)}";
        ratings.Add(new(
            "ISO 4628-5",
            size is null
                ? $"{quantity.Class}{quantity.Spread("")}"
                : SizeRatings.Designation($"{quantity.Class}", quantity.Spread(""), RatedRange.Of(size, Iso4628Flaking.Size)),
            $"{RatingText.Percent(area)} of the area seen in photo {photo.Number} shows another color behind a step; nearest nominal area "
            + "(0.1, 0.3, 1, 3, 15 %), our convention, the standard's pictures have no limits; numbers from memory of the standard; "
            + $"{sizeText}; depth a or b is not told by color alone"));
    }
}
