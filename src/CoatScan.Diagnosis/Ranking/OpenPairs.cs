namespace CoatScan.Diagnosis;

/// <summary>Finds the look-alike pairs that are still open.</summary>
internal static class OpenPairs
{
    /// <summary>Open pairs of the leading condition; while there is one, the condition is not decided.</summary>
    public static IReadOnlyList<OpenPair> OfLeading(
        KnowledgeBase knowledge,
        IReadOnlyList<Scored> ranked,
        EvidenceSet evidence) =>
        [.. Find(knowledge, ranked, evidence).Where(p => p.Leading == ranked[0].Id)];

    /// <summary>Open pairs among the conditions in play, those of the leading condition first.</summary>
    /// <remarks>In play: share of at least the limit; the pair must hold the leading condition or lie among the leading ones.</remarks>
    public static IReadOnlyList<OpenPair> Find(
        KnowledgeBase knowledge,
        IReadOnlyList<Scored> ranked,
        EvidenceSet evidence)
    {
        double limit = knowledge.Ranking.Status.OpenLookAlikeMinShare;
        Dictionary<string, int> place = ranked
            .Select((s, i) => (s, i))
            .Where(p => p.s.Share >= limit || p.i == 0)
            .ToDictionary(p => p.s.Id, p => p.i, StringComparer.Ordinal);
        int leading = knowledge.Ranking.NextTests.LeadingConditions;
        return
        [
            .. knowledge.Deciders
                .Where(d => place.ContainsKey(d.First) && place.ContainsKey(d.Second) && !evidence.HasAny(d.AnyOf))
                .Select(d => (d, a: Math.Min(place[d.First], place[d.Second]), b: Math.Max(place[d.First], place[d.Second])))
                .Where(p => p.a == 0 || p.b < leading)
                .OrderBy(p => p.a)
                .ThenBy(p => p.b)
                .Select(p => new OpenPair(ranked[p.a].Id, ranked[p.b].Id, p.d)),
        ];
    }
}
