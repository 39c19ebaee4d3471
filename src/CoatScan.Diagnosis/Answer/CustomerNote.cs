using CoatScan.Findings;

namespace CoatScan.Diagnosis;

/// <summary>Plain words for the owner: what is seen, what it means, how sure and why, what first, what not, when again.</summary>
internal sealed class CustomerNote(KnowledgeBase knowledge)
{
    public string Write(
        Verdict verdict,
        IReadOnlyList<Scored> ranked,
        IReadOnlyList<CauseShare> causes,
        IReadOnlyList<NextTest> nextTests,
        Remedy remedy)
    {
        ConditionEntry leading = knowledge.ById[ranked[0].Id];
        string[] parts = verdict switch
        {
            Verdict.Sound =>
            [
                "What we see: no paint fault, within the limits of what was shown.",
                "What to do: wash and wax as usual, and keep the photos as a record.",
                "When to look again: at the next service, or when something changes.",
            ],
            Verdict.Provisional when leading.Id == VerdictRules.SoundCondition =>
            [
                "What we see: nothing wrong in what was shown.",
                "What it means: a good sign, but no proof. Some faults show only in low light from the side, under a fingertip "
                + "or on a gauge.",
                First(remedy),
                "How to be sure: "
                + (nextTests.Count > 0 ? $"{Lower(nextTests[0].DisplayName)}, or " : "")
                + "a second photo of the same panel in other light.",
                Not(remedy),
                "When to look again: when that has been done, or when something changes.",
            ],
            Verdict.Conclusive or Verdict.Provisional =>
            [
                $"What we see: {Lower(leading.Name)}.",
                $"What it means: {leading.PlainWords}",
                Sure(verdict, causes, nextTests),
                First(remedy),
                Not(remedy),
                Next(verdict, remedy, nextTests),
                LookAgain(remedy),
            ],
            _ =>
            [
                $"What we see: it may be {Either(ranked)}; the evidence does not decide it yet.",
                nextTests.Count > 0 ? $"What would tell most next: {Lower(nextTests[0].DisplayName)}." : "",
                First(remedy),
                "Please do not polish, sand or paint it before that: it cannot be undone.",
                "When to look again: when the test has been made.",
            ],
        };
        return string.Join(" ", parts.Where(p => p.Length > 0));
    }

    private static string Lower(string text) => char.ToLowerInvariant(text[0]) + text[1..];

    private static string First(Remedy remedy) =>
        remedy.Steps.Count > 0 ? $"What to do first: {remedy.Steps[0].Action}." : "";

    private static string LookAgain(Remedy remedy) =>
        remedy.Steps.Count > 0 && remedy.Steps[0].Wait is { } wait
            ? $"When to look again: after the first step ({wait})."
            : "When to look again: after the first step.";

    private static string Sure(Verdict verdict, IReadOnlyList<CauseShare> causes, IReadOnlyList<NextTest> nextTests)
    {
        string cause = causes.Count > 0 ? $" The probable cause is: {causes[0].Text}." : "";
        if (verdict == Verdict.Conclusive)
        {
            return "How sure: what was seen and tested decides what it is." + cause;
        }

        string open = nextTests.Count > 0 ? $"; this would tell most next: {Lower(nextTests[0].DisplayName)}" : "";
        return $"How sure: the likeliest, but not certain{open}." + cause;
    }

    private string Next(Verdict verdict, Remedy remedy, IReadOnlyList<NextTest> nextTests) => verdict switch
    {
        Verdict.Conclusive when remedy.Steps.Count > 1 =>
            $"What it may need next: {knowledge.Operations[remedy.Steps[1].Operation].Text}, only if the first step is not enough.",
        Verdict.Conclusive when nextTests.Count > 0 => $"What it may need next: {Lower(nextTests[0].DisplayName)}.",
        _ => "",
    };

    private string Not(Remedy remedy)
    {
        string[] forbidden = [.. remedy.MustNot.Take(3).Select(m => knowledge.Operations[m.Operation].Plain)];
        return forbidden.Length > 0 ? $"Please do not let anybody do this: {string.Join(", ", forbidden)}." : "";
    }

    private string Either(IReadOnlyList<Scored> ranked)
    {
        string[] names =
        [
            .. ranked
                .Take(3)
                .Where((s, i) => i == 0 || s.Share >= knowledge.Ranking.Status.OpenLookAlikeMinShare)
                .Select(s => Lower(knowledge.ById[s.Id].Name)),
        ];
        return names.Length < 3
            ? string.Join(" or ", names)
            : $"{string.Join(", ", names[..^1])} or {names[^1]}";
    }
}
