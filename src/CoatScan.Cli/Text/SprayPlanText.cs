using CoatScan.V1;

namespace CoatScan.Cli.Text;

/// <summary>A spray day as a page.</summary>
internal static class SprayPlanText
{
    private static readonly string[] Heads = ["hour", "spray", "dew point", "why"];

    /// <summary>Writes the page.</summary>
    public static void Write(TextPage page, SprayPlan plan, int widthColumns)
    {
        ArgumentNullException.ThrowIfNull(page);
        ArgumentNullException.ThrowIfNull(plan);
        var words = page.Words;
        page.Rule('=');
        page.Paragraph(words.Fill(Headline(plan)), Style.Strong);
        page.Rule('-');
        page.Entry("AIR", words.Fill(
            plan.MarginC < 0 ? "Dew point {0} C; the panel is {1} C below it." : "Dew point {0} C; the panel is {1} C above it.",
            Number(plan.DewPointC, words),
            Number(Math.Abs(plan.MarginC), words)));
        page.Entries("LIMITS", plan.Gates.Select(gate => $"{words.Fill(Mark(gate.Verdict))}: {words.Bare(gate.Text)}."));
        page.Entry("WHEN", plan.Verdict == SprayVerdict.DoNotSpray ? When(plan, words) : "");
        page.Entry("THINNER", Phrase.Sentence(words.Fill(Phrase.OfId(plan.ThinnerSpeed))));
        page.Entry("FLASH", words.Fill("{0} minutes between coats.", Range(plan.FlashMin, words)));
        page.Entry("RETARDER", plan.RetarderPercent is { } retarder
            ? words.Fill("{0} % of the thinner's volume.", Range(retarder, words))
            : "");
        page.Entry("COAT", words.Fill("{0} micrometers dry for each coat.", Range(plan.CoatUm, words)));
        page.Entry("RECOAT", words.Sentence(plan.Recoat));
        page.Entry("POT", words.Sentence(plan.Pot));
        page.Entries("MIND", plan.Notes.Select(words.Sentence));
        page.Entry("SHEET", words.Sentence(plan.ProductSheet));
        if (plan.Hours.Count > 0)
        {
            page.Gap();
            TextTable.Write(
                page,
                widthColumns,
                [.. Heads.Select(head => words.Fill(head))],
                [.. plan.Hours.Select(hour =>
                    new[] { hour.Hour, words.Fill(Mark(hour.Verdict)), $"{Number(hour.DewPointC, words)} C", words.Say(hour.Text) })]);
        }
    }

    /// <summary>The answer in one sentence, in English.</summary>
    public static string Headline(SprayPlan plan) => plan.Verdict switch
    {
        SprayVerdict.Spray => "Spray: within all limits.",
        SprayVerdict.SprayWithCare => "Spray with care.",
        _ => "Do not spray.",
    };

    private static string When(SprayPlan plan, ReaderWords words) => plan.PossibleFrom.Length > 0
        ? words.Fill("It could become possible at {0}.", plan.PossibleFrom)
        : plan.Hours.Count > 0
            ? words.Fill("At no hour of the forecast.")
            : words.Fill("Pass a forecast to learn when it could become possible.");

    /// <summary>Whether a limit or an hour lets one spray, in English.</summary>
    public static string Mark(SprayVerdict verdict) => verdict switch
    {
        SprayVerdict.Spray => "yes",
        SprayVerdict.SprayWithCare => "with care",
        _ => "no",
    };

    private static string Number(double value, ReaderWords words) => value.ToString("0.0", words.Format.Marks);

    private static string Range(SprayRange range, ReaderWords words) => words.Fill(
        "{0} to {1}", range.Low.ToString("0.##", words.Format.Marks), range.High.ToString("0.##", words.Format.Marks));
}
