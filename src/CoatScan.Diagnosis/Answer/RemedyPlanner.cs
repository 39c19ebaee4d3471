using CoatScan.Findings;

namespace CoatScan.Diagnosis;

/// <summary>Says what to do first and next, and what not to do, as far as the verdict allows.</summary>
/// <remarks>
/// <para>Film that is spent cannot be put back. So the whole ladder is given only when the condition is decided and no
/// look-alike of it is open; else only the steps that spend no film, and while the condition is open only harmless ones.
/// Every withheld step that spends film is named as forbidden for now.</para>
/// <para>Two conditions at once make one plan: the ladder of the one that goes deepest, and of the others the steps that
/// clear the surface, each operation once. What the deeper repair takes away anyway is not done before, and nothing is
/// waxed or watched that is about to be repaired.</para>
/// <para>No step is also forbidden: what the condition forbids until an obstacle is cleared stands with the obstacle, not
/// among the steps. Then the film budget and the kind of finish rule out steps (<see cref="RemedyGates"/>), and waits of a young
/// finish become dates (<see cref="WaitDates"/>).</para>
/// </remarks>
internal sealed class RemedyPlanner
{
    private const string Always = "always";
    private const string Now = "now";
    private const string UntilMet = "until_met";
    private const string Wash = "wash";
    private const string WaitCure = "wait_cure";
    private const string Monitor = "none_monitor";
    private const string Protect = "protect";

    private readonly KnowledgeBase _knowledge;
    private readonly RemedyGates _gates;
    private readonly WaitDates _waits;

    public RemedyPlanner(KnowledgeBase knowledge)
    {
        _knowledge = knowledge;
        _gates = new(knowledge);
        _waits = new(knowledge);
    }

    public FilmBudget? Budget(PanelFacts facts) => _gates.Budget(facts);

    public Remedy Plan(RemedyCase panel)
    {
        (List<RemedyStep> steps, List<MustNot> mustNot) = panel.Verdict switch
        {
            Verdict.Conclusive or Verdict.Sound => Decided(panel),
            // Where nothing is wrong there is nothing to hold back until a test decides.
            Verdict.Provisional when panel.Ranked[0].Id == VerdictRules.SoundCondition => Decided(panel),
            Verdict.Provisional => SpendingNothing(panel, "not before the condition is confirmed at the car"),
            _ => Open(panel),
        };
        // What holds longest is said: the condition forbids it, then film or finish, then only the open question.
        MustNot[] forbidden =
        [
            .. mustNot.Where(m => m.Scope != Now)
                .Concat(_gates.Closed(panel.Facts, panel.Evidence))
                .Concat(mustNot.Where(m => m.Scope == Now))
                .DistinctBy(m => m.Operation),
        ];

        // A step that is forbidden until an obstacle is cleared is no step yet; it is named with the obstacle.
        ILookup<string, RemedyStep> later = steps
            .Where(s => forbidden.Any(m => m.Operation == s.Operation))
            .ToLookup(s => s.Operation, StringComparer.Ordinal);
        return new(
            [.. steps.Where(s => !later.Contains(s.Operation)).Select(s => _waits.Dated(s, panel.Facts, panel.Evidence))],
            [
                .. forbidden.Select(m => m.Scope == UntilMet && later[m.Operation].FirstOrDefault() is { } step
                    ? m with { Why = $"{m.Why}; once that is cleared: {step.Action}" }
                    : m),
            ]);
    }

    /// <summary>Ids of conditions, the one that goes deepest first: metal, bond, film, surface, what lies on it.</summary>
    public IReadOnlyList<string> DeepestFirst(IEnumerable<string> conditions) =>
        [.. conditions.OrderBy(Depth)];

    private int Depth(string condition)
    {
        IReadOnlyList<string> families = _knowledge.Ranking.DepthOrder;
        for (int i = 0; i < families.Count; i++)
        {
            if (families[i] == _knowledge.ById[condition].Family)
            {
                return i;
            }
        }

        return families.Count;
    }

    private (List<RemedyStep> Steps, List<MustNot> MustNot) Decided(RemedyCase panel)
    {
        if (panel.OpenOfLeading.Count > 0)
        {
            string other = _knowledge.ById[panel.OpenOfLeading[0].Other].Name;
            return SpendingNothing(panel, $"not before a test has told it from {char.ToLowerInvariant(other[0])}{other[1..]}");
        }

        ConditionEntry[] deepestFirst =
            [.. DeepestFirst([panel.Ranked[0].Id, .. panel.Beside]).Select(c => _knowledge.ById[c])];
        ConditionEntry deepest = deepestFirst[0];
        List<RemedyStep> steps = [.. deepest.Ladder.Select(s => Step(s, deepest))];
        List<MustNot> mustNot = [.. deepest.MustNot];
        foreach (ConditionEntry other in deepestFirst.Skip(1))
        {
            HashSet<string> forbidden = [.. mustNot.Where(m => m.Scope == Always).Select(m => m.Operation)];
            HashSet<string> present = [.. steps.Select(s => s.Operation)];
            int deepestRepair = deepest.Ladder.Max(s => Operation(s).SpendsFilm ? Operation(s).Invasiveness : 0);
            RemedyStep[] added =
            [
                .. other.Ladder
                    .Where(s => !forbidden.Contains(s.Operation) && !present.Contains(s.Operation))
                    .Where(s => s.Operation is not (Monitor or Protect))
                    .Where(s => !Operation(s).SpendsFilm || Operation(s).Invasiveness > deepestRepair)
                    .Select(s => Step(s, other)),
            ];
            int firstSpending = steps.FindIndex(s => _knowledge.Operations[s.Operation].SpendsFilm);
            steps.InsertRange(firstSpending < 0 ? steps.Count : firstSpending, added);
            mustNot.AddRange(other.MustNot.Where(m => !present.Contains(m.Operation)));
        }

        return (steps, mustNot);
    }

    private (List<RemedyStep> Steps, List<MustNot> MustNot) SpendingNothing(RemedyCase panel, string why)
    {
        ConditionEntry leading = _knowledge.ById[panel.Ranked[0].Id];
        return (
            [.. leading.Ladder.Where(s => !Operation(s).SpendsFilm).Select(s => Step(s, leading))],
            [.. leading.MustNot, .. Spending(panel).Select(o => new MustNot(o, why, Now))]);
    }

    private (List<RemedyStep> Steps, List<MustNot> MustNot) Open(RemedyCase panel)
    {
        ConditionEntry leading = _knowledge.ById[panel.Ranked[0].Id];
        LadderStep first = FirstHarmless(leading);

        // Washing decides nothing wrongly and shows what is on the film; only fresh paint must wait instead.
        if (first.Operation != WaitCure && first.Operation != Wash)
        {
            first = panel.OpenOfLeading
                .Select(p => FirstHarmless(_knowledge.ById[p.Other]))
                .FirstOrDefault(s => s.Operation == Wash) ?? first;
        }

        return (
            [Generic(first.Operation)],
            [.. Spending(panel).Select(o => new MustNot(o, "the condition is not decided yet, and this cannot be undone", Now))]);
    }

    // What any condition in play does or forbids and that cannot be undone, least invasive first.
    private IEnumerable<string> Spending(RemedyCase panel) => panel.Ranked
        .Where((s, i) => i == 0 || s.Share >= _knowledge.Ranking.Status.OpenLookAlikeMinShare)
        .Select(s => _knowledge.ById[s.Id])
        .SelectMany(c => c.Ladder.Select(s => s.Operation).Concat(c.MustNot.Select(m => m.Operation)))
        .Where(o => _knowledge.Operations[o].SpendsFilm)
        .Distinct(StringComparer.Ordinal)
        .OrderBy(o => _knowledge.Operations[o].Invasiveness)
        .ThenBy(o => o, StringComparer.Ordinal);

    private OperationEntry Operation(LadderStep step) => _knowledge.Operations[step.Operation];

    private LadderStep FirstHarmless(ConditionEntry condition) =>
        condition.Ladder.FirstOrDefault(s => Operation(s).Harmless)
        ?? new(Monitor, _knowledge.Operations[Monitor].Text, "");

    // The action of a ladder speaks of its own condition; while that is open only the operation itself is said.
    private RemedyStep Generic(string operation) => WithOperation(new(
        operation,
        _knowledge.Operations[operation].Text,
        "stop here until a test has decided the condition",
        null,
        null));

    private RemedyStep Step(LadderStep step, ConditionEntry condition) =>
        WithOperation(new(step.Operation, step.Action, step.StopIf, step.Wait, null)) with { Condition = condition.Id };

    private RemedyStep WithOperation(RemedyStep step)
    {
        OperationEntry operation = _knowledge.Operations[step.Operation];
        return step with
        {
            Hours = operation.Hours,
            HoursFor = operation.HoursFor ?? "",
            Materials = operation.Materials ?? "",
            SpendsUm = operation.SpendsUm,
        };
    }
}
