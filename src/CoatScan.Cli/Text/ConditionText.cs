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

    /// <summary>Writes the card.</summary>
    public static void WriteCard(TextPage page, Condition condition)
    {
        ArgumentNullException.ThrowIfNull(page);
        ArgumentNullException.ThrowIfNull(condition);
        page.Rule('=');
        page.Paragraph($"{condition.DisplayName} ({Id(condition.Name)})", Style.Strong);
        page.Rule('-');
        page.Entry("ALSO", Phrase.Sentence(condition.AlsoCalled));
        page.Entry("WHAT", Phrase.Sentence(condition.Description));
        page.Entries("CAUSE", condition.Causes.Select(one =>
            $"{Phrase.Capital(one.Text)}: {one.Mechanism.TrimEnd('.')}. Answers: {Phrase.OfId(one.Party)}."));
        page.Entries("NOT", condition.LookAlikes.Select(one =>
            $"{Phrase.Capital(Phrase.OfId(one.Condition))}: {one.Tell.TrimEnd('.')}."));
        page.Entries("TEST", condition.Tests.Select(Phrase.Sentence));
        page.Entries("DO", condition.Steps.Select(one =>
        {
            var action = Phrase.Sentence(one.Action.Length > 0 ? one.Action : TradeWords.Operation(one.Operation));
            return $"{action} {RemedyText.StopWords(one.StopIf)}".Trim();
        }));
        page.Entries("NEVER", condition.MustNot.Select(one =>
            RemedyText.Say(one.Why, one.Scope, [TradeWords.Operation(one.Operation)])));
        page.Entries("SAFETY", condition.Cautions.Select(Phrase.Sentence));
        page.Entry("PREVENT", condition.Prevention.Count == 0
            ? ""
            : $"{Phrase.Capital(string.Join("; ", condition.Prevention.Select(one => one.TrimEnd('.'))))}.");
        page.Entry("RATED", Phrase.Sentence(condition.Rating));
    }

    private static string Id(string name) => name[(name.LastIndexOf('/') + 1)..];
}
