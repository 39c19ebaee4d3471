using System.Globalization;
using CoatScan.V1;

namespace CoatScan.Cli.Text;

/// <summary>Conditions of the knowledge base as a table, and one of them as a card.</summary>
internal static class ConditionText
{
    private static readonly string[] Heads = ["name", "also called", "family"];

    /// <summary>Writes the table.</summary>
    public static void WriteTable(TextPage page, IReadOnlyList<Condition> conditions, int widthColumns)
    {
        ArgumentNullException.ThrowIfNull(page);
        ArgumentNullException.ThrowIfNull(conditions);
        var words = page.Words;
        TextTable.Write(
            page,
            widthColumns,
            ["id", .. Heads.Select(head => words.Fill(head))],
            [.. conditions.Select(one =>
                new[] { Id(one.Name), words.Say(one.DisplayName), words.Say(one.AlsoCalled), words.Say(Phrase.OfId(one.Family)) })]);
    }

    /// <summary>Writes all about one condition, in the order in which somebody at the car needs it.</summary>
    /// <param name="page">Where to write.</param>
    /// <param name="condition">The condition.</param>
    /// <param name="names">Trade names of all conditions by their resource names; one that is not there is said by its id.</param>
    public static void WriteCard(TextPage page, Condition condition, IReadOnlyDictionary<string, string> names)
    {
        ArgumentNullException.ThrowIfNull(page);
        ArgumentNullException.ThrowIfNull(condition);
        ArgumentNullException.ThrowIfNull(names);
        var words = page.Words;
        page.Rule('=');
        page.Paragraph($"{words.Say(condition.DisplayName)} ({Id(condition.Name)})", Style.Strong);
        page.Paragraph(AlsoCalled(condition, words), Style.Faint);
        page.Rule('-');
        page.Paragraph(words.Sentence(condition.Description));
        page.Gap();
        page.Entries("LOOK", Looks(condition, words));
        page.Entry("FOR", Signs(condition, "STRONG_FOR", words));
        page.Entry("", Signs(condition, "MODERATE_FOR", words));
        page.Entry("AGAINST", Signs(condition, "RULES_OUT", words));
        page.Entry("", Signs(condition, "MODERATE_AGAINST", words));
        page.Entries("NOT", condition.LookAlikes.Select(one => $"{Phrase.Capital(words.Say(names.GetValueOrDefault(one.Condition) ?? Phrase.OfId(one.Condition)))}: {words.Bare(one.Tell)}."));
        page.Entries("TEST", condition.Tests.Select(words.Sentence));
        page.Entries("CAUSE", condition.Causes.Select(one => Cause(one, words)));
        page.Entry("WHEN", words.Sentence(condition.Timing));
        page.Entry("", condition.SignsOfAge is "" or "none" ? "" : words.Fill("It was there before if you see: {0}.", words.Bare(condition.SignsOfAge)));
        page.Entries("DO", condition.Steps.Select((one, i) => Step(one, i + 1, words)));
        page.Entries("NEVER", condition.MustNot.Select(one => RemedyText.Say(one.Why, one.Scope, [words.Operation(one.Operation)], words)));
        page.Entries("SAFETY", condition.Cautions.Select(words.Sentence));
        page.Entry("PREVENT", condition.Prevention.Count == 0
            ? ""
            : $"{Phrase.Capital(string.Join("; ", condition.Prevention.Select(words.Bare)))}.");
        page.Entry("RATED", words.Sentence(condition.Rating));
        page.Entries("SOURCE", condition.Sources.Select(words.Sentence));
    }

    private static string Step(ConditionStep one, int number, ReaderWords words)
    {
        var action = Phrase.Sentence(one.Action.Length > 0 ? words.Say(one.Action) : words.Operation(one.Operation));
        var wait = one.Wait is "" or "none" ? "" : " " + words.Fill("Wait: {0}.", words.Bare(one.Wait));
        var text = $"{action} {RemedyText.StopWords(one.StopIf, words)}".TrimEnd();
        return string.Create(CultureInfo.InvariantCulture, $"{number}. {text}{wait}");
    }

    private static string AlsoCalled(Condition condition, ReaderWords words) => string.Join(' ', new[]
    {
        condition.AlsoCalled.Length > 0 ? words.Fill("Also called {0}.", words.Say(condition.AlsoCalled)) : "",
        words.Fill("Family: {0}.", words.Say(Phrase.OfId(condition.Family))),
        condition.Finishes.Count > 0 ? words.Fill("Met on: {0}.", string.Join(", ", condition.Finishes.Select(words.Say))) : "",
    }.Where(one => one.Length > 0));

    private static IEnumerable<string> Looks(Condition condition, ReaderWords words)
    {
        if (condition.Look is not { } look)
        {
            yield break;
        }

        yield return words.Sentence(look.Shape);
        yield return words.Fill(
            "Size: {0} to {1} mm. Relief: {2}. Color and gloss: {3}.",
            look.LowMm.ToString("0.###", words.Format.Marks),
            look.HighMm.ToString("0.###", words.Format.Marks),
            words.Bare(look.Relief),
            words.Bare(look.Color));
        yield return words.Fill("Where: {0}. Light in which it shows best: {1}.", words.Bare(look.Where), words.Bare(look.Light));
    }

    private static string Signs(Condition condition, string weight, ReaderWords words)
    {
        List<string> texts = [.. condition.Signs.Where(one => one.Weight == weight).Select(one => words.Bare(one.Text))];
        var head = weight switch
        {
            "STRONG_FOR" => "Strongly",
            "RULES_OUT" => "All but rules it out",
            "MODERATE_FOR" => "Also",
            _ => "Speaks against it",
        };
        return texts.Count == 0 ? "" : $"{words.Fill(head)}: {string.Join("; ", texts)}.";
    }

    private static string Cause(ConditionCause cause, ReaderWords words)
    {
        var party = words.Say(cause.PartyText.Length > 0 ? cause.PartyText : Phrase.OfId(cause.Party));
        var onset = Onset(cause.Onset);
        var shows = onset.Length > 0 ? " " + words.Fill(onset) : "";
        return $"{Phrase.Capital(words.Say(cause.Text))}: {words.Bare(cause.Mechanism)}.{shows} {words.Fill("Answers: {0}.", party)}";
    }

    /// <summary>When a cause shows, as an English sentence; empty if that cannot be told.</summary>
    public static string Onset(string onset) => onset switch
    {
        "at_spraying" => "Shows while it is sprayed.",
        "hours_days" => "Shows in hours or days.",
        "weeks_months" => "Shows in weeks or months.",
        "years" => "Shows over years.",
        "instant_event" => "Shows at once.",
        _ => "",
    };

    private static string Id(string name) => name[(name.LastIndexOf('/') + 1)..];
}
