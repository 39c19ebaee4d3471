using System.Collections.Frozen;
using CoatScan.Findings;

namespace CoatScan.Diagnosis;

/// <summary>Ranks the causes of one condition, and the parties that answer for them.</summary>
internal sealed class CauseRanker(KnowledgeBase knowledge)
{
    /// <summary>Causes of a condition, most probable first.</summary>
    public IReadOnlyList<CauseShare> Rank(string condition, EvidenceSet evidence)
    {
        ConditionEntry entry = knowledge.ById[condition];
        IReadOnlyList<Scored> ranked = Scored.Rank(
            entry.Causes.Select(c => (c.Id, c.BaseWeight, Weigh(condition, c, evidence))));
        Dictionary<string, CauseEntry> causes = entry.Causes.ToDictionary(c => c.Id, StringComparer.Ordinal);
        return
        [
            .. ranked.Select(s => new CauseShare(condition, s.Id, s.Share, causes[s.Id].Party, s.Evidence)
            {
                Text = causes[s.Id].Text,
                Mechanism = causes[s.Id].Mechanism,
            }),
        ];
    }

    /// <summary>Summed shares of the causes by party, most probable first.</summary>
    public IReadOnlyList<PartyShare> Parties(IEnumerable<CauseShare> causes) =>
    [
        .. causes
            .GroupBy(c => c.Party, StringComparer.Ordinal)
            .Select(g => new PartyShare(g.Key, g.Sum(c => c.Probability), knowledge.Parties[g.Key].Text))
            .OrderByDescending(p => p.Probability)
            .ThenBy(p => p.Party, StringComparer.Ordinal),
    ];

    /// <summary>The party that most probably answers for a condition, without the explanation.</summary>
    public string LeadingParty(string condition, EvidenceSet evidence)
    {
        IReadOnlyList<CauseEntry> causes = knowledge.ById[condition].Causes;
        var scores = new Dictionary<string, double>(StringComparer.Ordinal);
        foreach (CauseEntry cause in causes)
        {
            double log = Math.Log(cause.BaseWeight);
            FrozenDictionary<string, LikelihoodClass> listed = knowledge.Weights.OfCause(condition, cause.Id);
            foreach (string id in evidence.Ids)
            {
                if (listed.TryGetValue(id, out LikelihoodClass likelihood))
                {
                    log += knowledge.Weights.Log(likelihood);
                }
            }

            scores[cause.Party] = scores.GetValueOrDefault(cause.Party) + Math.Exp(log);
        }

        return scores.OrderByDescending(p => p.Value).ThenBy(p => p.Key, StringComparer.Ordinal).First().Key;
    }

    private List<EvidenceWeight> Weigh(string condition, CauseEntry cause, EvidenceSet evidence)
    {
        var weights = new List<EvidenceWeight>();
        FrozenDictionary<string, LikelihoodClass> listed = knowledge.Weights.OfCause(condition, cause.Id);
        foreach (string id in evidence.Ids)
        {
            if (listed.TryGetValue(id, out LikelihoodClass likelihood))
            {
                string reason = WeightWords.Reason(knowledge.Evidence[id].Text, likelihood);
                weights.Add(new(id, knowledge.Weights.Log(likelihood), reason));
            }
        }

        return weights;
    }
}
