using CoatScan.Diagnosis;
using CoatScan.Findings;
using CoatScan.Reports;

namespace CoatScan.Service.Page;

/// <summary>Turns the tests that a finding asks for next into questions that a person can answer with one press.</summary>
internal sealed class Questions(KnowledgeBase knowledge)
{
    /// <summary>Most questions at a time.</summary>
    public const int AtOnce = 3;

    private const string PhotoTest = "photo_";
    private const string FilmGroup = "film.";
    private const string GlossReading = "measured.gloss";
    private const string ColorReading = "measured.delta_e";

    /// <summary>The questions that matter most now, those put aside left out.</summary>
    public IReadOnlyList<Question> Of(Finding finding, IReadOnlyCollection<string> skipped, TradeWords words) =>
    [
        .. finding.NextTests
            .Where(test => knowledge.Tests.ContainsKey(test.Test) && !skipped.Contains(test.Test))
            .Take(AtOnce)
            .Select(test => Of(test, words)),
    ];

    /// <summary>Name of a test.</summary>
    public string NameOf(string test, TradeWords words) => knowledge.Tests.TryGetValue(test, out var entry) ? words.Say(entry.Name) : test;

    /// <summary>Ids that say something of the same matter as an answer, so that only one of them can be true.</summary>
    public IReadOnlyCollection<string> Rivals(string evidence) =>
    [
        .. knowledge.Tests.Values
            .Where(test => test.Outcomes.Contains(evidence))
            .SelectMany(test => test.Outcomes)
            .Where(id => id != evidence),
    ];

    private Question Of(NextTest test, TradeWords words)
    {
        var entry = knowledge.Tests[test.Test];
        return new Question(test.Test, words.Say(test.DisplayName), words.Say(test.How), words.Say(test.Reason))
        {
            Caution = words.Say(test.Caution),
            Consent = words.Say(test.Consent),
            Minutes = test.Minutes,
            Invasiveness = test.Invasiveness,
            GainBits = test.GainBits,
            Kind = KindOf(entry),
            Options = [.. OptionsOf(entry).Select(id => (id, words.Say(knowledge.Evidence[id].Text)))],
            TakesPhoto = test.Test.StartsWith(PhotoTest, StringComparison.Ordinal),
        };
    }

    private static AnswerKind KindOf(TestEntry test) => test.Outcomes switch
    {
        [var first, ..] when first.StartsWith(FilmGroup, StringComparison.Ordinal) => AnswerKind.Film,
        [var first, ..] when first.StartsWith(GlossReading, StringComparison.Ordinal) => AnswerKind.Gloss,
        [var first, ..] when first.StartsWith(ColorReading, StringComparison.Ordinal) => AnswerKind.ColorDifference,
        _ => AnswerKind.Choice,
    };

    // A look has no outcomes of its own: it brings a sign of a group.
    private IEnumerable<string> OptionsOf(TestEntry test)
    {
        if (test.Outcomes.Count > 0)
        {
            return test.Outcomes;
        }

        string[] groups = test.Look is { Brings: { } group } ? [group] : [.. test.Look?.MissingGroups ?? []];
        return knowledge.Evidence.Values.Where(term => groups.Contains(term.Group)).Select(term => term.Id);
    }
}
