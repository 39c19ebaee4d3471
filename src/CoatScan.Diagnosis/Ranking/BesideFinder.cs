namespace CoatScan.Diagnosis;

/// <summary>Finds conditions that are present beside the leading one, on the same panel.</summary>
/// <remarks>
/// A condition is present beside the leading one when a strong sign of it was seen or tested that the leading one does not
/// explain (does not list in favor), nothing all but rules it out, and the two are not taken for one another: between
/// look-alikes such a sign is an argument, not a second condition. A sign that the leading one explains, say its relief,
/// rules out nothing beside it; a test does.
/// </remarks>
internal sealed class BesideFinder
{
    private static readonly string[] SeenGroups = ["form", "relief", "size", "color", "gloss", "location", "film", "measured", "test"];

    private readonly KnowledgeBase _knowledge;
    private readonly HashSet<(string, string)> _lookAlikes = [];

    public BesideFinder(KnowledgeBase knowledge)
    {
        _knowledge = knowledge;
        IEnumerable<(string First, string Second)> pairs = knowledge.Deciders.Select(d => (d.First, d.Second))
            .Concat(knowledge.Conditions.SelectMany(c => c.LookAlikes.Select(l => (c.Id, l.Id))));
        foreach ((string first, string second) in pairs)
        {
            _lookAlikes.Add((first, second));
            _lookAlikes.Add((second, first));
        }
    }

    /// <summary>Ids of the conditions beside the leading one, most probable first.</summary>
    public IReadOnlyList<string> Find(IReadOnlyList<Scored> ranked, EvidenceSet evidence)
    {
        string leading = ranked[0].Id;
        string[] unexplained =
        [
            .. evidence.Ids.Where(id =>
                SeenGroups.Contains(_knowledge.Evidence[id].Group) && _knowledge.Weights.ConditionLog(leading, id) <= 0),
        ];
        return leading == VerdictRules.SoundCondition || unexplained.Length == 0
            ? []
            :
            [
                .. ranked.Skip(1).Select(s => s.Id).Where(c =>
                    c != VerdictRules.SoundCondition
                    && !_lookAlikes.Contains((leading, c))
                    && unexplained.Any(id => _knowledge.Weights.OfCondition(c, id) == LikelihoodClass.StrongFor)
                    && !evidence.Ids.Any(id =>
                        _knowledge.Weights.OfCondition(c, id) == LikelihoodClass.RulesOut
                        && (unexplained.Contains(id) || _knowledge.Trials.TrialOf(id) is not null))),
            ];
    }

    /// <summary>The conditions that compete with the leading one, scaled to sum 1: those beside it do not.</summary>
    public static IReadOnlyList<Scored> Competing(IReadOnlyList<Scored> ranked, IReadOnlyList<string> beside)
    {
        if (beside.Count == 0)
        {
            return ranked;
        }

        Scored[] competing = [.. ranked.Where(s => !beside.Contains(s.Id))];
        double total = competing.Sum(s => s.Share);
        return [.. competing.Select(s => s with { Share = s.Share / total })];
    }
}
