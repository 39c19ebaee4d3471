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
        var words = page.Words;
        page.Entries("RATED", finding.Ratings.Select(one => Say(one, words)));
        var chosen = MetricChoice.Of(FindingFromWire.Of(finding));
        var values = chosen
            .Where(one => one.Value is not null)
            .DistinctBy(one => one.Metric)
            .Take(MostValues)
            .Select(one => Say(one, words))
            .ToList();
        page.Entry("MEASURED", values.Count == 0 ? "" : $"{Phrase.Capital(string.Join("; ", values))}.");
        var absent = chosen
            .Where(one => one.AbsentReason is not null)
            .GroupBy(one => one.AbsentReason, one => words.Say(MetricName.Of(one.Metric)))
            .Take(MostAbsentReasons)
            .Select(group => words.Fill("Not measured: {0}, because {1}.", Names([.. group.Distinct()], words), Reason(group.Key!, words)));
        page.Entries(values.Count == 0 ? "MEASURED" : "", absent);
    }

    private static string Say(Rating rating, ReaderWords words) =>
        $"{rating.Standard}: {words.Say(rating.Designation)}{(rating.Basis.Length > 0 ? $" ({words.Bare(rating.Basis)})" : "")}.";

    // The unit stands behind the number, so the name need not say it; shares read best in percent.
    private static string Say(CoatScan.Findings.Measurement one, ReaderWords words)
    {
        var isShare = one.Metric.EndsWith("_fraction", StringComparison.Ordinal) || one.Metric.EndsWith("_share", StringComparison.Ordinal);
        var factor = isShare ? 100 : 1;
        var unit = isShare ? " %" : Unit(one.Unit, words);
        var spread = one.Uncertainty is { } half ? words.Fill(", give or take {0}", Number(half * factor, half * factor, words) + unit) : "";
        return $"{words.Say(MetricName.WithoutUnit(one.Metric))}: {Number(one.Value!.Value * factor, one.Uncertainty * factor, words)}{unit}{spread}";
    }

    private static string Names(List<string> names, ReaderWords words) => names.Count <= MostAbsentNames
        ? words.List(names)
        : words.Fill("{0} and {1} more", string.Join(", ", names.Take(MostAbsentNames)), names.Count - MostAbsentNames);

    private static string Reason(string reason, ReaderWords words) => words.Say(reason).Replace('-', ' ').Trim().TrimEnd('.');

    private static string Unit(string ucum, ReaderWords words)
    {
        var unit = TradeWords.Unit(ucum);
        return unit.Length == 0 ? "" : " " + words.Say(unit[1..]);
    }

    // No more places than the half width supports, and three figures without one: more would only look exact.
    private static string Number(double value, double? half, ReaderWords words)
    {
        var grain = half is > 0 and var spread ? spread : Math.Abs(value) / 10;
        if (grain < 1e-6)
        {
            return "0";
        }

        var decimals = Math.Clamp(1 - (int)Math.Floor(Math.Log10(grain)), 0, 6);
        var text = Math.Round(value, decimals).ToString("F" + decimals.ToString(CultureInfo.InvariantCulture), CultureInfo.InvariantCulture);
        return words.Format.Number(text.Contains('.', StringComparison.Ordinal) ? text.TrimEnd('0').TrimEnd('.') : text);
    }
}
