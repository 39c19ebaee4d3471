using System.Globalization;
using CoatScan.Reports;
using CoatScan.V1;

namespace CoatScan.Cli.Text;

/// <summary>What was measured and rated, and why something was not.</summary>
internal static class MeasurementText
{
    private const int MostValues = 5;
    private const int MostAbsentNames = 3;
    private const int MostAbsentReasons = 2;

    /// <summary>Writes ratings, values and what is absent with its reason.</summary>
    public static void Write(TextPage page, Finding finding)
    {
        ArgumentNullException.ThrowIfNull(finding);
        page.Entries("RATED", finding.Ratings.Select(Say));
        var values = finding.Measurements
            .Where(one => one.HasValue)
            .DistinctBy(one => one.Metric)
            .Take(MostValues)
            .Select(Say)
            .ToList();
        page.Entry("MEASURED", values.Count == 0 ? "" : $"{Phrase.Capital(string.Join("; ", values))}.");
        var absent = finding.Measurements
            .Where(one => one.HasAbsentReason)
            .GroupBy(one => one.AbsentReason, one => MetricName.Of(one.Metric))
            .Take(MostAbsentReasons)
            .Select(group => $"Not measured: {Names([.. group.Distinct()])}, because {Reason(group.Key)}.");
        page.Entries(values.Count == 0 ? "MEASURED" : "", absent);
    }

    private static string Say(Rating rating) =>
        $"{rating.Standard}: {rating.Designation}{(rating.Basis.Length > 0 ? $" ({rating.Basis.TrimEnd('.')})" : "")}.";

    private static string Say(Measurement one)
    {
        var spread = one.HasUncertainty ? $" give or take {Number(one.Uncertainty)}" : "";
        return $"{MetricName.Of(one.Metric)} {Number(one.Value)}{spread}{TradeWords.Unit(one.Unit)}";
    }

    private static string Names(List<string> names) => names.Count <= MostAbsentNames
        ? Phrase.List(names)
        : string.Create(
            CultureInfo.InvariantCulture,
            $"{string.Join(", ", names.Take(MostAbsentNames))} and {names.Count - MostAbsentNames} more");

    private static string Reason(string reason) => reason.Replace('-', ' ').Trim().TrimEnd('.');

    // Three figures: more than a photo supports would only look exact.
    private static string Number(double value) => Math.Abs(value) switch
    {
        >= 100 => Math.Round(value).ToString("0", CultureInfo.InvariantCulture),
        >= 10 => value.ToString("0.#", CultureInfo.InvariantCulture),
        // What rounds to zero has no sign.
        < 0.005 => "0",
        _ => value.ToString("0.##", CultureInfo.InvariantCulture),
    };
}
