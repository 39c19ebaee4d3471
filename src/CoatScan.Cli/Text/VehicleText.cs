using CoatScan.Cli.Connection;
using CoatScan.V1;

namespace CoatScan.Cli.Text;

/// <summary>The vehicles of a batch, worst first, and what to photograph again.</summary>
internal static class VehicleText
{
    private static readonly string[] Heads = ["vehicle", "panel", "verdict", "leading condition", "remedy", "hours"];

    /// <summary>Writes the summary.</summary>
    /// <param name="page">Where to write.</param>
    /// <param name="widthColumns">Width of the page.</param>
    /// <param name="batch">The batch.</param>
    /// <param name="vehicles">Its vehicles, worst first.</param>
    /// <param name="refused">Photos that are in no panel, with the reason.</param>
    /// <param name="nameOf">A panel as the user knows it, by the name of its item.</param>
    public static void Write(
        TextPage page,
        int widthColumns,
        Batch batch,
        IReadOnlyList<VehicleSummary> vehicles,
        IReadOnlyList<(string Name, ServiceError Error)> refused,
        Func<string, string> nameOf)
    {
        ArgumentNullException.ThrowIfNull(page);
        var words = page.Words;
        page.Rule('=');
        page.Paragraph(Counts(batch, vehicles.Count, words), Style.Strong);
        page.Rule('-');
        TextTable.Write(
            page,
            widthColumns,
            [.. Heads.Select(head => words.Fill(head))],
            [.. vehicles.SelectMany(vehicle => vehicle.Panels.Select((panel, index) => Row(vehicle, panel, index, nameOf, words)))]);
        WriteRetakes(page, vehicles, nameOf);
        foreach (var (name, error) in refused)
        {
            page.Paragraph(words.Fill("{0}: not used ({1}). {2}", name, ErrorText.Reason(error, words), words.Complain(error.Message)));
        }
    }

    private static string Counts(Batch batch, int vehicles, ReaderWords words) =>
        words.Fill(vehicles == 1 ? "1 vehicle" : "{0} vehicles, worst first", vehicles)
        + "; " + words.Fill("{0} of {1} panels graded", batch.GradedCount, batch.ItemCount)
        + (batch.FailedCount > 0 ? ", " + words.Fill("{0} failed", batch.FailedCount) : "")
        + (batch.CancelledCount > 0 ? ", " + words.Fill("{0} cancelled", batch.CancelledCount) : "");

    private static string[] Row(VehicleSummary vehicle, VehiclePanel panel, int index, Func<string, string> nameOf, ReaderWords words)
    {
        var name = panel.Panel.Length > 0 ? panel.Panel : nameOf(panel.Item);
        var shown = name.StartsWith(vehicle.VehicleRef + "/", StringComparison.Ordinal)
            ? name[(vehicle.VehicleRef.Length + 1)..]
            : name;
        return
        [
            index == 0 ? vehicle.VehicleRef : "",
            shown,
            panel.Error is { } error ? words.Fill("failed: {0}", ErrorText.Reason(ServiceError.Of(error), words)) : Verdict(panel, words),
            panel.Condition.Length > 0 ? $"{words.Say(panel.ConditionDisplayName)} {words.Say(Findings.ShareText.Percent(panel.Probability))}" : "",
            Remedy(panel, words),
            panel.Hours is { } hours
                ? words.Fill("{0} to {1}", hours.Low.ToString("0.##", words.Format.Marks), hours.High.ToString("0.##", words.Format.Marks))
                : "",
        ];
    }

    private static string Verdict(VehiclePanel panel, ReaderWords words) =>
        panel is { Condition: TradeWords.SoundCondition, Verdict: V1.Verdict.Provisional }
            ? words.Fill("no fault seen")
            : words.Fill(OverviewRow.Word(panel.Verdict)) + (panel.Rating.Length > 0 ? $", {words.Say(panel.Rating)}" : "");

    private static string Remedy(VehiclePanel panel, ReaderWords words)
    {
        if (panel is { Verdict: not (V1.Verdict.Conclusive or V1.Verdict.Sound), MostRemedy: "NONE" or "" })
        {
            // Nothing is named while the condition is open; that is not the same as nothing to do.
            return "";
        }

        var least = words.Fill(Phrase.OfId(panel.LeastRemedy).ToLowerInvariant());
        var most = words.Fill(Phrase.OfId(panel.MostRemedy).ToLowerInvariant());
        return least == most ? least : words.Fill("{0} to {1}", least, most);
    }

    private static void WriteRetakes(TextPage page, IReadOnlyList<VehicleSummary> vehicles, Func<string, string> nameOf)
    {
        var wanted = vehicles
            .SelectMany(vehicle => vehicle.Panels)
            .Where(panel => panel.Retakes.Count > 0)
            .ToList();
        if (wanted.Count == 0)
        {
            return;
        }

        page.Rule('-');
        page.Paragraph(page.Words.Fill("PHOTOGRAPH AGAIN while the vehicle is there"), Style.Strong);
        foreach (var panel in wanted)
        {
            page.Paragraph($"{nameOf(panel.Item)}: {string.Join(' ', panel.Retakes.Select(page.Words.Sentence))}");
        }
    }
}
