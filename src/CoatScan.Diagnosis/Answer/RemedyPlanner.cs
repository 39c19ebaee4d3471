using CoatScan.Findings;

namespace CoatScan.Diagnosis;

/// <summary>Says what to do first and next, and what not to do, as far as the verdict allows.</summary>
/// <remarks>
/// Film that is spent cannot be put back. So the whole ladder is given only when the condition is decided; while it is
/// provisional only the steps that spend no film, and while it is open only harmless ones. Every withheld step that
/// spends film is named as forbidden for now.
/// </remarks>
internal sealed class RemedyPlanner(KnowledgeBase knowledge)
{
    private const string Now = "now";
    private const string Wash = "wash";
    private const string WaitCure = "wait_cure";
    private const string Monitor = "none_monitor";

    public Remedy Plan(Verdict verdict, IReadOnlyList<Scored> ranked, IReadOnlyList<OpenPair> open)
    {
        ConditionEntry leading = knowledge.ById[ranked[0].Id];
        return verdict switch
        {
            Verdict.Conclusive or Verdict.Sound => new([.. leading.Ladder.Select(Step)], leading.MustNot),
            Verdict.Provisional => Provisional(leading),
            _ => Open(ranked, open),
        };
    }

    private Remedy Provisional(ConditionEntry leading)
    {
        ILookup<bool, LadderStep> bySpending = leading.Ladder.ToLookup(s => knowledge.Operations[s.Operation].SpendsFilm);
        HashSet<string> forbidden = [.. leading.MustNot.Select(m => m.Operation)];
        return new(
            [.. bySpending[false].Select(Step)],
            [
                .. leading.MustNot,
                .. bySpending[true]
                    .Select(s => s.Operation)
                    .Distinct(StringComparer.Ordinal)
                    .Where(o => !forbidden.Contains(o))
                    .Select(o => new MustNot(o, "not before the condition is confirmed at the car", Now)),
            ]);
    }

    private Remedy Open(IReadOnlyList<Scored> ranked, IReadOnlyList<OpenPair> open)
    {
        ConditionEntry leading = knowledge.ById[ranked[0].Id];
        ConditionEntry[] inPlay =
        [
            .. ranked
                .Where((s, i) => i == 0 || s.Share >= knowledge.Ranking.Status.OpenLookAlikeMinShare)
                .Select(s => knowledge.ById[s.Id]),
        ];
        LadderStep first = FirstHarmless(leading);

        // Washing decides nothing wrongly and shows what is on the film; only fresh paint must wait instead.
        if (first.Operation != WaitCure && first.Operation != Wash)
        {
            first = open
                .Where(p => p.Leading == leading.Id)
                .Select(p => FirstHarmless(knowledge.ById[p.Other]))
                .FirstOrDefault(s => s.Operation == Wash) ?? first;
        }

        IEnumerable<string> spending = inPlay
            .SelectMany(c => c.Ladder.Select(s => s.Operation).Concat(c.MustNot.Select(m => m.Operation)))
            .Where(o => knowledge.Operations[o].SpendsFilm)
            .Distinct(StringComparer.Ordinal)
            .OrderBy(o => knowledge.Operations[o].Invasiveness)
            .ThenBy(o => o, StringComparer.Ordinal);
        return new(
            [Generic(first.Operation)],
            [.. spending.Select(o => new MustNot(o, "the condition is not decided yet, and this cannot be undone", Now))]);
    }

    private LadderStep FirstHarmless(ConditionEntry condition) =>
        condition.Ladder.FirstOrDefault(s => knowledge.Operations[s.Operation].Harmless)
        ?? new(Monitor, knowledge.Operations[Monitor].Text, "");

    // The action of a ladder speaks of its own condition; while that is open only the operation itself is said.
    private RemedyStep Generic(string operation) => new(
        operation,
        knowledge.Operations[operation].Text,
        "stop here until a test has decided the condition",
        null,
        knowledge.Operations[operation].Hours);

    private RemedyStep Step(LadderStep step) => new(
        step.Operation,
        step.Action,
        step.StopIf,
        step.Wait,
        knowledge.Operations[step.Operation].Hours);
}
