using CoatScan.Findings;

namespace CoatScan.Diagnosis;

/// <summary>Says what speaks for and against each party, from the evidence of its causes.</summary>
/// <remarks>
/// A piece of evidence speaks for a party when, over the causes of all parties, it raises this party's share: its factor on
/// the party's causes (weighted by their shares) is larger than on all causes together.
/// </remarks>
internal static class PartyReasons
{
    public static IReadOnlyList<PartyShare> With(
        IReadOnlyList<PartyShare> parties,
        IReadOnlyList<CauseShare> causes,
        KnowledgeBase knowledge)
    {
        string[] ids = [.. causes.SelectMany(c => c.Evidence.Select(e => e.Id)).Where(id => id != Scored.Base).Distinct(StringComparer.Ordinal)];
        return [.. parties.Select(p => With(p, causes, ids, knowledge))];
    }

    private static PartyShare With(
        PartyShare party,
        IReadOnlyList<CauseShare> causes,
        string[] ids,
        KnowledgeBase knowledge)
    {
        CauseShare[] own = [.. causes.Where(c => c.Party == party.Party)];
        (string Id, double Log)[] moved =
        [
            .. ids
                .Select(id => (id, Math.Log(Factor(own, id) / Factor(causes, id))))
                .Where(m => Math.Abs(m.Item2) > 1e-9)
                .OrderByDescending(m => Math.Abs(m.Item2))
                .ThenBy(m => m.id, StringComparer.Ordinal),
        ];
        return party with
        {
            For = [.. moved.Where(m => m.Log > 0).Select(m => knowledge.Evidence[m.Id].Text)],
            Against = [.. moved.Where(m => m.Log < 0).Select(m => knowledge.Evidence[m.Id].Text)],
        };
    }

    // Mean factor over the causes as they stood without this piece.
    private static double Factor(IReadOnlyList<CauseShare> causes, string id)
    {
        (double with, double without) = (0, 0);
        foreach (CauseShare cause in causes)
        {
            double log = cause.Evidence.FirstOrDefault(e => e.Id == id)?.WeightLog ?? 0;
            with += cause.Probability;
            without += cause.Probability / Math.Exp(log);
        }

        return with / without;
    }
}
