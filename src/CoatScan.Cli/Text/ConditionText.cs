using System.Globalization;
using CoatScan.V1;

namespace CoatScan.Cli.Text;

/// <summary>Conditions of the knowledge base as a table, and one of them as a card.</summary>
internal static class ConditionText
{
    /// <summary>Writes the table.</summary>
    public static void WriteTable(TextPage page, IReadOnlyList<Condition> conditions, int widthColumns)
    {
        ArgumentNullException.ThrowIfNull(page);
        ArgumentNullException.ThrowIfNull(conditions);
        TextTable.Write(
            page,
            widthColumns,
            ["id", "name", "also called", "family"],
            [.. conditions.Select(one =>
                new[] { Id(one.Name), one.DisplayName, one.AlsoCalled, Phrase.OfId(one.Family) })]);
    }

    /// <summary>Writes all about one condition, in the order in which somebody at the car needs it.</summary>
    public static void WriteCard(TextPage page, Condition condition)
    {
        ArgumentNullException.ThrowIfNull(page);
        ArgumentNullException.ThrowIfNull(condition);
        page.Rule('=');
        page.Paragraph($"{condition.DisplayName} ({Id(condition.Name)})", Style.Strong);
        page.Paragraph(AlsoCalled(condition), Style.Faint);
        page.Rule('-');
        page.Paragraph(Phrase.Sentence(condition.Description));
        page.Gap();
        page.Entries("LOOK", Looks(condition));
        page.Entry("FOR", Signs(condition, "STRONG_FOR"));
        page.Entry("", Signs(condition, "MODERATE_FOR"));
        page.Entry("AGAINST", Signs(condition, "RULES_OUT"));
        page.Entry("", Signs(condition, "MODERATE_AGAINST"));
        page.Entries("NOT", condition.LookAlikes.Select(one =>
            $"{Phrase.Capital(Phrase.OfId(one.Condition))}: {one.Tell.TrimEnd('.')}."));
        page.Entries("TEST", condition.Tests.Select(Phrase.Sentence));
        page.Entries("CAUSE", condition.Causes.Select(Cause));
        page.Entry("WHEN", condition.Timing.Length > 0 ? Phrase.Sentence($"It {condition.Timing}") : "");
        page.Entry("", condition.SignsOfAge is "" or "none" ? "" : $"It was there before if you see: {condition.SignsOfAge.TrimEnd('.')}.");
        page.Entries("DO", condition.Steps.Select((one, i) =>
        {
            var action = Phrase.Sentence(one.Action.Length > 0 ? one.Action : TradeWords.Operation(one.Operation));
            var wait = one.Wait is "" or "none" ? "" : $" Wait: {one.Wait.TrimEnd('.')}.";
            return $"{i + 1}. {action} {RemedyText.StopWords(one.StopIf, ReaderWords.English)}{wait}".Trim();
        }));
        page.Entries("NEVER", condition.MustNot.Select(one =>
            RemedyText.Say(one.Why, one.Scope, [TradeWords.Operation(one.Operation)], ReaderWords.English)));
        page.Entries("SAFETY", condition.Cautions.Select(Phrase.Sentence));
        page.Entry("PREVENT", condition.Prevention.Count == 0
            ? ""
            : $"{Phrase.Capital(string.Join("; ", condition.Prevention.Select(one => one.TrimEnd('.'))))}.");
        page.Entry("RATED", Phrase.Sentence(condition.Rating));
        page.Entries("SOURCE", condition.Sources.Select(Phrase.Sentence));
    }

    private static string AlsoCalled(Condition condition)
    {
        var also = condition.AlsoCalled.Length > 0 ? $"Also called {condition.AlsoCalled}. " : "";
        var met = condition.Finishes.Count > 0 ? $" Met on: {string.Join(", ", condition.Finishes)}." : "";
        return $"{also}Family: {Phrase.OfId(condition.Family)}.{met}";
    }

    private static IEnumerable<string> Looks(Condition condition)
    {
        if (condition.Look is not { } look)
        {
            yield break;
        }

        yield return Phrase.Sentence(look.Shape);
        yield return string.Create(CultureInfo.InvariantCulture, $"Size: {look.LowMm:0.###} to {look.HighMm:0.###} mm. ")
            + $"Relief: {look.Relief.TrimEnd('.')}. Color and gloss: {look.Color.TrimEnd('.')}.";
        yield return $"Where: {look.Where.TrimEnd('.')}. Seen best in: {look.Light.TrimEnd('.')} light.";
    }

    private static string Signs(Condition condition, string weight)
    {
        List<string> texts = [.. condition.Signs.Where(one => one.Weight == weight).Select(one => one.Text.TrimEnd('.'))];
        var word = weight switch
        {
            "STRONG_FOR" => "Strongly",
            "RULES_OUT" => "All but rules it out",
            "MODERATE_FOR" => "Also",
            _ => "Speaks against it",
        };
        return texts.Count == 0 ? "" : $"{word}: {string.Join("; ", texts)}.";
    }

    private static string Cause(ConditionCause cause)
    {
        var party = cause.PartyText.Length > 0 ? cause.PartyText : Phrase.OfId(cause.Party);
        var shows = cause.Onset switch
        {
            "at_spraying" => " Shows while it is sprayed.",
            "hours_days" => " Shows in hours or days.",
            "weeks_months" => " Shows in weeks or months.",
            "years" => " Shows over years.",
            "instant_event" => " Shows at once.",
            _ => "",
        };
        return $"{Phrase.Capital(cause.Text)}: {cause.Mechanism.TrimEnd('.')}.{shows} Answers: {party}.";
    }

    private static string Id(string name) => name[(name.LastIndexOf('/') + 1)..];
}
