using System.Globalization;
using CoatScan.Cli.Sheets;
using CoatScan.Reports;
using CoatScan.V1;

namespace CoatScan.Cli.Text;

/// <summary>What was measured and rated, and why something was not.</summary>
internal static class MeasurementText
{
    private const int MostValues = 6;
    private const int MostAbsentNames = 3;
    private const int MostAbsentReasons = 2;

    /// <summary>Writes ratings, values and what is absent with its reason.</summary>
    public static void Write(TextPage page, Finding finding)
    {
        ArgumentNullException.ThrowIfNull(finding);
        page.Entries("RATED", finding.Ratings.Select(Say));
        var chosen = MetricChoice.Of(FindingFromWire.Of(finding));
        var values = chosen
            .Where(one => one.Value is not null)
            .DistinctBy(one => one.Metric)
            .Take(MostValues)
            .Select(Say)
            .ToList();
        page.Entry("MEASURED", values.Count == 0 ? "" : $"{Phrase.Capital(string.Join("; ", values))}.");
        var absent = chosen
            .Where(one => one.AbsentReason is not null)
            .GroupBy(one => one.AbsentReason, one => MetricName.Of(one.Metric))
            .Take(MostAbsentReasons)
            .Select(group => $"Not measured: {Names([.. group.Distinct()])}, because {Reason(group.Key!)}.");
        page.Entries(values.Count == 0 ? "MEASURED" : "", absent);
    }

    private static string Say(Rating rating) =>
        $"{rating.Standard}: {rating.Designation}{(rating.Basis.Length > 0 ? $" ({rating.Basis.TrimEnd('.')})" : "")}.";

    // The unit stands behind the number, so the name need not say it; shares read best in percent.
    private static string Say(CoatScan.Findings.Measurement one)
    {
        var isShare = one.Metric.EndsWith("_fraction", StringComparison.Ordinal) || one.Metric.EndsWith("_share", StringComparison.Ordinal);
        var factor = isShare ? 100 : 1;
        var unit = isShare ? " %" : TradeWords.Unit(one.Unit);
        var spread = one.Uncertainty is { } half ? $", give or take {Number(half * factor, 2)}{unit}" : "";
        return $"{MetricName.WithoutUnit(one.Metric)}: {Number(one.Value!.Value * factor, 3)}{unit}{spread}";
    }

    private static string Names(List<string> names) => names.Count <= MostAbsentNames
        ? Phrase.List(names)
        : string.Create(
            CultureInfo.InvariantCulture,
            $"{string.Join(", ", names.Take(MostAbsentNames))} and {names.Count - MostAbsentNames} more");

    private static string Reason(string reason) => reason.Replace('-', ' ').Trim().TrimEnd('.');

    // Three figures, of a half width two: more than a photo supports would only look exact.
    private static string Number(double value, int figures)
    {
        if (Math.Abs(value) < 1e-6)
        {
            return "0";
        }

        var decimals = Math.Clamp(figures - 1 - (int)Math.Floor(Math.Log10(Math.Abs(value))), 0, 6);
        var text = Math.Round(value, decimals).ToString("F" + decimals.ToString(CultureInfo.InvariantCulture), CultureInfo.InvariantCulture);
        return text.Contains('.', StringComparison.Ordinal) ? text.TrimEnd('0').TrimEnd('.') : text;
    }
}
