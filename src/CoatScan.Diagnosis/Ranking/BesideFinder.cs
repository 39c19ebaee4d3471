namespace CoatScan.Diagnosis;

/// <summary>Finds conditions that are present beside the leading one, on the same panel.</summary>
/// <remarks>
/// A condition is present beside the leading one when a strong sign of it was seen or tested that the leading one does not
/// explain (does not list in favor), nothing all but rules it out, and the two are not taken for one another: between
/// look-alikes such a sign is an argument, not a second condition. A sign that the leading one explains, say its relief,
/// rules out nothing beside it; a test does.
/// </remarks>
internal sealed class BesideFinder(KnowledgeBase knowledge)
{
    private static readonly string[] SeenGroups = ["form", "relief", "size", "color", "gloss", "location", "film", "measured", "test"];

    /// <summary>Ids of the conditions beside the leading one, most probable first.</summary>
    public IReadOnlyList<string> Find(IReadOnlyList<Scored> ranked, EvidenceSet evidence)
    {
        string leading = ranked[0].Id;
        string[] unexplained =
        [
            .. evidence.Ids.Where(id =>
                SeenGroups.Contains(knowledge.Evidence[id].Group) && knowledge.Weights.ConditionLog(leading, id) <= 0),
        ];
        return leading == VerdictRules.SoundCondition || unexplained.Length == 0
            ? []
            :
            [
                .. ranked.Skip(1).Select(s => s.Id).Where(c =>
                    c != VerdictRules.SoundCondition
                    && !knowledge.LookAlikes.Contains(leading, c)
                    && unexplained.Any(id => knowledge.Weights.OfCondition(c, id) == LikelihoodClass.StrongFor)
                    && !evidence.Ids.Any(id =>
                        knowledge.Weights.OfCondition(c, id) == LikelihoodClass.RulesOut
                        && (unexplained.Contains(id) || knowledge.Trials.TrialOf(id) is not null))),
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
