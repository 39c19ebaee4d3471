using System.Collections.Frozen;

namespace CoatScan.Diagnosis;

/// <summary>Natural logarithms of every factor that evidence can put on a condition or cause.</summary>
internal sealed class WeightTable
{
    private readonly FrozenDictionary<string, FrozenDictionary<string, LikelihoodClass>> _conditions;
    private readonly FrozenDictionary<(string Condition, string Cause), FrozenDictionary<string, LikelihoodClass>> _causes;
    private readonly FrozenDictionary<LikelihoodClass, double> _log;
    private readonly FrozenDictionary<string, double> _unlistedLog;
    private readonly FrozenDictionary<string, string> _groups;

    public WeightTable(KnowledgeBase knowledge)
    {
        _conditions = knowledge.Conditions.ToFrozenDictionary(c => c.Id, c => Invert(c.Signs), StringComparer.Ordinal);
        _causes = knowledge.Conditions
            .SelectMany(c => c.Causes.Select(k => ((c.Id, k.Id), WithHints(c, k, knowledge.Ranking.CauseHints))))
            .ToFrozenDictionary(p => p.Item1, p => p.Item2);
        _log = knowledge.Ranking.LikelihoodClasses.ToFrozenDictionary(p => p.Key, p => Math.Log(p.Value));
        _unlistedLog = knowledge.Ranking.UnlistedSignFactors
            .ToFrozenDictionary(p => p.Key, p => Math.Log(p.Value), StringComparer.Ordinal);
        _groups = knowledge.Evidence.ToFrozenDictionary(p => p.Key, p => p.Value.Group, StringComparer.Ordinal);
    }

    /// <summary>Class in which a condition lists a piece of evidence; null if it does not list it.</summary>
    public LikelihoodClass? OfCondition(string condition, string evidence) =>
        _conditions[condition].TryGetValue(evidence, out LikelihoodClass c) ? c : null;

    /// <summary>Everything that a cause, or else its party, lists.</summary>
    public FrozenDictionary<string, LikelihoodClass> OfCause(string condition, string cause) => _causes[(condition, cause)];

    public double Log(LikelihoodClass likelihood) => _log[likelihood];

    /// <summary>Weight of evidence that a condition does not list: below 0 for a visible sign, 0 for all other groups.</summary>
    public double UnlistedLog(string evidence) => _unlistedLog.GetValueOrDefault(_groups[evidence], 0);

    public double ConditionLog(string condition, string evidence) =>
        OfCondition(condition, evidence) is { } listed ? Log(listed) : UnlistedLog(evidence);

    // What a cause says of itself is nearer to the matter than what holds for its party, and that than its onset.
    private static FrozenDictionary<string, LikelihoodClass> WithHints(
        ConditionEntry condition,
        CauseEntry cause,
        IReadOnlyList<CauseHint> hints)
    {
        Dictionary<string, LikelihoodClass> listed = new(Invert(cause.Evidence), StringComparer.Ordinal);
        CauseHint[] holding = [.. hints.Where(h => h.HoldsFor(condition))];
        foreach (CauseHint hint in holding)
        {
            if (hint.Parties?.TryGetValue(cause.Party, out LikelihoodClass general) == true)
            {
                listed.TryAdd(hint.Evidence, general);
            }
        }

        foreach (CauseHint hint in holding)
        {
            if (hint.Onsets?.TryGetValue(cause.Onset, out LikelihoodClass general) == true)
            {
                listed.TryAdd(hint.Evidence, general);
            }
        }

        return listed.ToFrozenDictionary(StringComparer.Ordinal);
    }

    private static FrozenDictionary<string, LikelihoodClass> Invert(
        IReadOnlyDictionary<LikelihoodClass, IReadOnlyList<string>> byClass) =>
        byClass.SelectMany(p => p.Value.Select(id => (id, p.Key)))
            .ToFrozenDictionary(p => p.id, p => p.Key, StringComparer.Ordinal);
}
