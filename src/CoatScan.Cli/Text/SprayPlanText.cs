using System.Globalization;
using CoatScan.V1;

namespace CoatScan.Cli.Text;

/// <summary>A spray day as a page.</summary>
internal static class SprayPlanText
{
    /// <summary>Writes the page.</summary>
    public static void Write(TextPage page, SprayPlan plan, int widthColumns)
    {
        ArgumentNullException.ThrowIfNull(page);
        ArgumentNullException.ThrowIfNull(plan);
        page.Rule('=');
        page.Paragraph(Headline(plan), Style.Strong);
        page.Rule('-');
        page.Entry("AIR", $"Dew point {Number(plan.DewPointC)} C; the panel is {Number(Math.Abs(plan.MarginC))} C {(plan.MarginC < 0 ? "below" : "above")} it.");
        page.Entries("LIMITS", plan.Gates.Select(gate => $"{Mark(gate.Verdict)}: {gate.Text}."));
        if (plan.Verdict == SprayVerdict.DoNotSpray)
        {
            page.Entry("WHEN", plan.PossibleFrom.Length > 0
                ? $"It could become possible at {plan.PossibleFrom}."
                : plan.Hours.Count > 0
                    ? "At no hour of the forecast."
                    : "Pass a forecast to learn when it could become possible.");
        }

        page.Entry("THINNER", Phrase.Sentence(Phrase.OfId(plan.ThinnerSpeed)));
        page.Entry("FLASH", $"{Range(plan.FlashMin)} minutes between coats.");
        page.Entry("RETARDER", plan.RetarderPercent is { } retarder ? $"{Range(retarder)} % of the thinner's volume." : "");
        page.Entry("COAT", $"{Range(plan.CoatUm)} micrometers dry for each coat.");
        page.Entry("RECOAT", Phrase.Sentence(plan.Recoat));
        page.Entry("POT", Phrase.Sentence(plan.Pot));
        page.Entries("MIND", plan.Notes.Select(Phrase.Sentence));
        page.Entry("SHEET", Phrase.Sentence(plan.ProductSheet));
        if (plan.Hours.Count > 0)
        {
            page.Gap();
            TextTable.Write(
                page,
                widthColumns,
                ["hour", "spray", "dew point", "why"],
                [.. plan.Hours.Select(hour => new[] { hour.Hour, Mark(hour.Verdict), $"{Number(hour.DewPointC)} C", hour.Text })]);
        }
    }

    private static string Headline(SprayPlan plan) => plan.Verdict switch
    {
        SprayVerdict.Spray => "Spray: within all limits.",
        SprayVerdict.SprayWithCare => "Spray with care.",
        _ => "Do not spray.",
    };

    private static string Mark(SprayVerdict verdict) => verdict switch
    {
        SprayVerdict.Spray => "yes",
        SprayVerdict.SprayWithCare => "with care",
        _ => "no",
    };

    private static string Number(double value) => value.ToString("0.0", CultureInfo.InvariantCulture);

    private static string Range(SprayRange range) =>
        string.Create(CultureInfo.InvariantCulture, $"{range.Low:0.##} to {range.High:0.##}");
}
