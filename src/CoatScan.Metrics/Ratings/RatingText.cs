using System.Globalization;
using CoatScan.Findings;

namespace CoatScan.Metrics.Ratings;

/// <summary>Numbers in the words of a rating's basis.</summary>
internal static class RatingText
{
    internal static string Percent(Measurement share) => string.Create(
        CultureInfo.InvariantCulture, $"{Figures(100.0 * share.Value!.Value)} % give or take {Figures(100.0 * share.Uncertainty ?? 0.0)} %");

    internal static string Millimeters(Measurement size) => string.Create(
        CultureInfo.InvariantCulture, $"{Figures(size.Value!.Value)} mm give or take {Figures(size.Uncertainty ?? 0.0)} mm");

    // Two figures: more than a photo supports would only look exact.
    private static string Figures(double value) =>
        value == 0.0 ? "0" : ((double)decimal.Parse(
            value.ToString("G2", CultureInfo.InvariantCulture), NumberStyles.Float, CultureInfo.InvariantCulture))
            .ToString("0.######", CultureInfo.InvariantCulture);
}
