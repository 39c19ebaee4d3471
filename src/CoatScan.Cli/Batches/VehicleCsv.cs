using System.Globalization;
using System.Text;
using CoatScan.Cli.Connection;
using CoatScan.V1;

namespace CoatScan.Cli.Batches;

/// <summary>The vehicles as a table for spreadsheets (RFC 4180), one line a panel, worst vehicle first.</summary>
internal static class VehicleCsv
{
    private const string Head =
        "vehicle,panel,verdict,condition,probability,rating,least_remedy,most_remedy,hours_low,hours_high,retakes,error,finding";

    /// <summary>The table.</summary>
    /// <param name="vehicles">The vehicles.</param>
    /// <param name="nameOf">A panel as the user knows it, by the name of its item.</param>
    public static string Write(IEnumerable<VehicleSummary> vehicles, Func<string, string> nameOf)
    {
        var table = new StringBuilder(Head).Append("\r\n");
        foreach (var (vehicle, panel) in vehicles.SelectMany(one => one.Panels.Select(panel => (one, panel))))
        {
            string[] cells =
            [
                vehicle.VehicleRef,
                panel.Panel.Length > 0 ? panel.Panel : nameOf(panel.Item),
                panel.Verdict == Verdict.Unspecified ? "" : panel.Verdict.ToString(),
                panel.ConditionDisplayName,
                panel.Condition.Length > 0 ? panel.Probability.ToString("0.###", CultureInfo.InvariantCulture) : "",
                panel.Rating,
                panel.LeastRemedy,
                panel.MostRemedy,
                panel.Hours?.Low.ToString("0.##", CultureInfo.InvariantCulture) ?? "",
                panel.Hours?.High.ToString("0.##", CultureInfo.InvariantCulture) ?? "",
                string.Join(' ', panel.Retakes),
                panel.Error is { } error ? ServiceError.Of(error).Reason : "",
                panel.Finding,
            ];
            table.AppendJoin(',', cells.Select(Cell)).Append("\r\n");
        }

        return table.ToString();
    }

    private static string Cell(string text)
    {
        // A spreadsheet takes such a start for a formula; a folder may be called anything.
        var safe = text.Length > 0 && text[0] is '=' or '+' or '-' or '@' ? "'" + text : text;
        return safe.AsSpan().ContainsAny(",\"\r\n") ? $"\"{safe.Replace("\"", "\"\"")}\"" : safe;
    }
}
