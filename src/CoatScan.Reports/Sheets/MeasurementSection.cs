using System.Globalization;
using CoatScan.Findings;

namespace CoatScan.Reports;

/// <summary>Ratings with their standards, measured values that matter, and film readings.</summary>
internal static class MeasurementSection
{
    private const int MostValues = 8;

    // Of many photos the sheet keeps to two pages; the JSON has every value.
    private const int ManyPhotos = 4;
    private const int MostValuesOfMany = 4;

    public static IEnumerable<Block> Blocks(Finding finding, SheetWords words, string guideHref, bool isOfSeveral = false, bool isCrowded = false)
    {
        List<Block> values = [.. Values(finding, words, isOfSeveral)];
        List<Block> limits = [.. LimitSection.Blocks(finding, words, guideHref, isCrowded || isOfSeveral)];
        if (finding.Ratings.Count + finding.FilmMap.Count + values.Count + limits.Count == 0)
        {
            yield break;
        }

        yield return new Heading(2, words.Measured);
        if (finding.Ratings.Count > 0)
        {
            yield return new Table(
                words.RatingsCaption,
                [(words.Standard, 1.2), (words.Rating, 1.2), (words.Basis, 4)],
                [.. finding.Ratings.Select(one => (IReadOnlyList<Text>)[one.Standard, Text.Bold(one.Designation), Phrases.Sentence(one.Basis)])]);
        }

        if (finding.FilmMap.Count > 0)
        {
            yield return new Table(
                words.FilmCaption,
                [(words.Panel, 1.3), (words.Readings, 0.8), (words.FilmRange, 1.5), (words.FilmSays, 4)],
                [.. finding.FilmMap.Select(one => (IReadOnlyList<Text>)
                [
                    one.Panel.Length > 0 ? one.Panel : words.ThisPanel,
                    one.Count.ToString(CultureInfo.InvariantCulture),
                    $"{words.Figure(one.LowUm)} / {words.Figure(one.MedianUm)} / {words.Figure(one.HighUm)}",
                    Phrases.Sentence(one.Text),
                ])]);
        }

        foreach (Block block in Columns.Of(values, limits))
        {
            yield return block;
        }
    }

    private static IEnumerable<Block> Values(Finding finding, SheetWords words, bool isOfSeveral)
    {
        List<Measurement> values = [.. MetricChoice.Of(finding).Where(one => one.Value is not null).Take(finding.Photos.Count < ManyPhotos && !isOfSeveral ? MostValues : MostValuesOfMany)];
        if (values.Count > 0)
        {
            bool several = finding.Photos.Count > 1;
            List<(string, double)> columns = [(words.Quantity, 2.6), (words.Value, 1.7), (words.GiveOrTake, 1.7)];
            columns.AddRange(several ? [(words.Photo, 1.1)] : []);
            yield return new Table(words.MeasuredCaption, columns, [.. values.Select(one => Row(one, several, words))]);
        }
    }

    private static List<Text> Row(Measurement one, bool several, SheetWords words)
    {
        // The unit stands behind the number, so the name need not say it; shares read best in percent.
        bool isShare = one.Metric.EndsWith("_fraction", StringComparison.Ordinal) || one.Metric.EndsWith("_share", StringComparison.Ordinal);
        double factor = isShare ? 100 : 1;
        string unit = isShare ? " %" : words.Unit(one.Unit);
        List<Text> row =
        [
            Phrases.Capital(words.MetricWithoutUnit(one.Metric)),
            words.MeasuredValue(one.Value!.Value * factor, one.Uncertainty * factor) + unit,
            one.Uncertainty is { } spread ? "± " + words.MeasuredValue(spread * factor, spread * factor) + unit : words.NotKnown,
        ];
        row.AddRange(several ? [(one.PhotoIndex + 1).ToString(CultureInfo.InvariantCulture)] : []);
        return row;
    }
}
