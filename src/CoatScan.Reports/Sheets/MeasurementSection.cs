using System.Globalization;
using CoatScan.Findings;

namespace CoatScan.Reports;

/// <summary>Ratings with their standards, measured values that matter, and film readings.</summary>
internal static class MeasurementSection
{
    private const int MostValues = 6;

    // What tells something about a thing that is seen; the rest is for programs and stands in the JSON.
    private static readonly Dictionary<string, string[]> TellingStarts = new(StringComparer.Ordinal)
    {
        ["round_spots"] = ["spot_"],
        ["rings"] = ["spot_"],
        ["domes"] = ["spot_"],
        ["craters"] = ["spot_"],
        ["nibs"] = ["spot_"],
        ["chips"] = ["spot_"],
        ["film_loss"] = ["two_tone", "rust_colored"],
        ["rust"] = ["rust_colored", "spot_"],
        ["wavy_texture"] = ["waviness_"],
        ["runs"] = ["line_", "waviness_"],
        ["wrinkles"] = ["line_", "waviness_"],
        ["crack_network"] = ["line_"],
        ["scratches"] = ["line_"],
        ["dulling"] = ["gloss_", "chroma_", "two_tone", "panel_"],
        ["sound"] = ["waviness_", "spot_count"],
    };

    public static IEnumerable<Block> Blocks(Finding finding, SheetWords words, string guideHref)
    {
        List<Block> values = [.. Values(finding, words)];
        List<Block> limits = [.. LimitSection.Blocks(finding, words, guideHref)];
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
                    $"{Shares.Figure(one.LowUm)} / {Shares.Figure(one.MedianUm)} / {Shares.Figure(one.HighUm)}",
                    Phrases.Sentence(one.Text),
                ])]);
        }

        foreach (Block block in Columns.Of(values, limits))
        {
            yield return block;
        }
    }

    private static IEnumerable<Block> Values(Finding finding, SheetWords words)
    {
        var values = Telling(finding);
        if (values.Count > 0)
        {
            bool several = finding.Photos.Count > 1;
            List<(string, double)> columns = [(words.Quantity, 2.6), (words.Value, 1.7), (words.GiveOrTake, 1.7)];
            columns.AddRange(several ? [(words.Photo, 1.1)] : []);
            yield return new Table(words.MeasuredCaption, columns, [.. values.Select(one => Row(one, several, words))]);
        }
    }

    private static List<Measurement> Telling(Finding finding)
    {
        string[] starts = finding.VisualClasses is [var lead, ..] ? TellingStarts.GetValueOrDefault(lead.VisualClass) ?? [] : [];
        return
        [
            .. finding.Measurements
                .Where(one => one.Value is not null)
                .Where(one => one.Metric.StartsWith("color_difference_", StringComparison.Ordinal)
                    || starts.Any(start => one.Metric.StartsWith(start, StringComparison.Ordinal)))
                // With an uncertainty and in millimeters before without and in pixels: what can be compared comes first.
                .OrderByDescending(one => one.Metric.StartsWith("color_difference_", StringComparison.Ordinal))
                .ThenByDescending(one => one.Metric.Contains("mm", StringComparison.Ordinal))
                .ThenByDescending(one => one.Uncertainty is not null)
                .Take(MostValues),
        ];
    }

    private static List<Text> Row(Measurement one, bool several, SheetWords words)
    {
        string unit = words.Unit(one.Unit);
        List<Text> row =
        [
            Phrases.Capital(MetricName.Of(one.Metric)),
            Shares.Measured(one.Value!.Value, one.Uncertainty) + unit,
            one.Uncertainty is { } spread ? "± " + Shares.Measured(spread, spread) + unit : words.NotKnown,
        ];
        row.AddRange(several ? [(one.PhotoIndex + 1).ToString(CultureInfo.InvariantCulture)] : []);
        return row;
    }
}
