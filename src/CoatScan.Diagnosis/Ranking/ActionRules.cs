namespace CoatScan.Diagnosis;

/// <summary>Says when two conditions call for different action.</summary>
/// <remarks>
/// Washing, waiting and watching can be done for both, so the action of a condition is its family and the first step that
/// does more than these. Two conditions call for different action when these differ, or when one holds a step that the
/// other forbids at any stage.
/// </remarks>
internal sealed class ActionRules
{
    private readonly Dictionary<string, (string Family, string Step)> _actions;
    private readonly Dictionary<string, HashSet<string>> _steps;
    private readonly Dictionary<string, HashSet<string>> _never;

    public ActionRules(KnowledgeBase knowledge)
    {
        _actions = knowledge.Conditions.ToDictionary(
            c => c.Id,
            c => (c.Family, FirstTelling(c, knowledge)),
            StringComparer.Ordinal);
        _steps = knowledge.Conditions.ToDictionary(
            c => c.Id,
            c => c.Ladder.Select(s => s.Operation).ToHashSet(StringComparer.Ordinal),
            StringComparer.Ordinal);
        _never = knowledge.Conditions.ToDictionary(
            c => c.Id,
            c => c.MustNot.Where(m => m.Scope == "always").Select(m => m.Operation).ToHashSet(StringComparer.Ordinal),
            StringComparer.Ordinal);
    }

    public bool Differ(string first, string second) =>
        _actions[first] != _actions[second]
        || _steps[first].Overlaps(_never[second])
        || _steps[second].Overlaps(_never[first]);

    /// <summary>The action of a condition.</summary>
    public (string Family, string Step) Of(string condition) => _actions[condition];

    private static string FirstTelling(ConditionEntry condition, KnowledgeBase knowledge) =>
        (condition.Ladder.FirstOrDefault(s => !knowledge.Operations[s.Operation].Harmless) ?? condition.Ladder[0]).Operation;
}
