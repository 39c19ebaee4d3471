using System.Globalization;
using CoatScan.Cli.Connection;
using CoatScan.V1;

namespace CoatScan.Cli.Text;

/// <summary>The vehicles of a batch, worst first, and what to photograph again.</summary>
internal static class VehicleText
{
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
        page.Rule('=');
        page.Paragraph(Counts(batch, vehicles.Count), Style.Strong);
        page.Rule('-');
        TextTable.Write(
            page,
            widthColumns,
            ["vehicle", "panel", "verdict", "leading condition", "remedy", "hours"],
            [.. vehicles.SelectMany(vehicle => vehicle.Panels.Select((panel, index) => Row(vehicle, panel, index, nameOf)))]);
        WriteRetakes(page, vehicles, nameOf);
        foreach (var (name, error) in refused)
        {
            page.Paragraph($"{name}: not used ({Phrase.OfId(error.Reason).ToLowerInvariant()}). {error.Message}");
        }
    }

    private static string Counts(Batch batch, int vehicles) => string.Create(
        CultureInfo.InvariantCulture,
        $"{vehicles} vehicles, worst first; {batch.GradedCount} of {batch.ItemCount} panels graded")
        + (batch.FailedCount > 0 ? string.Create(CultureInfo.InvariantCulture, $", {batch.FailedCount} failed") : "")
        + (batch.CancelledCount > 0 ? string.Create(CultureInfo.InvariantCulture, $", {batch.CancelledCount} cancelled") : "");

    private static string[] Row(VehicleSummary vehicle, VehiclePanel panel, int index, Func<string, string> nameOf)
    {
        var name = panel.Panel.Length > 0 ? panel.Panel : nameOf(panel.Item);
        var shown = name.StartsWith(vehicle.VehicleRef + "/", StringComparison.Ordinal)
            ? name[(vehicle.VehicleRef.Length + 1)..]
            : name;
        return
        [
            index == 0 ? vehicle.VehicleRef : "",
            shown,
            panel.Error is { } error ? $"failed: {Phrase.OfId(ServiceError.Of(error).Reason).ToLowerInvariant()}" : Verdict(panel),
            panel.Condition.Length > 0 ? $"{panel.ConditionDisplayName} {Share.Percent(panel.Probability)}" : "",
            Remedy(panel),
            panel.Hours is { } hours
                ? string.Create(CultureInfo.InvariantCulture, $"{hours.Low:0.##} to {hours.High:0.##}")
                : "",
        ];
    }

    private static string Verdict(VehiclePanel panel) =>
        panel is { Condition: TradeWords.SoundCondition, Verdict: V1.Verdict.Provisional }
            ? "no fault seen"
            : OverviewRow.Word(panel.Verdict) + (panel.Rating.Length > 0 ? $", {panel.Rating}" : "");

    private static string Remedy(VehiclePanel panel)
    {
        if (panel is { Verdict: not (V1.Verdict.Conclusive or V1.Verdict.Sound), MostRemedy: "NONE" or "" })
        {
            // Nothing is named while the condition is open; that is not the same as nothing to do.
            return "";
        }

        var least = Phrase.OfId(panel.LeastRemedy).ToLowerInvariant();
        var most = Phrase.OfId(panel.MostRemedy).ToLowerInvariant();
        return least == most ? least : $"{least} to {most}";
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
        page.Paragraph("PHOTOGRAPH AGAIN while the vehicle is there", Style.Strong);
        foreach (var panel in wanted)
        {
            page.Paragraph($"{nameOf(panel.Item)}: {string.Join(' ', panel.Retakes.Select(Phrase.Sentence))}");
        }
    }
}
