using CoatScan.Findings;

namespace CoatScan.Diagnosis;

/// <summary>Ranks conditions: base weight times the factors of the evidence, context groups capped.</summary>
internal sealed class ConditionRanker(KnowledgeBase knowledge)
{
    /// <summary>All conditions, most probable first.</summary>
    public IReadOnlyList<Scored> Rank(EvidenceSet evidence) =>
        Scored.Rank(knowledge.Conditions.Select(c => (c.Id, c.BaseWeight, Weigh(c, evidence))));

    private List<EvidenceWeight> Weigh(ConditionEntry condition, EvidenceSet evidence)
    {
        var weights = new List<EvidenceWeight>(evidence.Ids.Count + 2);
        var groups = new Dictionary<string, double>(StringComparer.Ordinal);
        foreach (string id in evidence.Ids)
        {
            EvidenceTerm term = knowledge.Evidence[id];
            LikelihoodClass? listed = knowledge.Weights.OfCondition(condition.Id, id);
            double weight = knowledge.Weights.ConditionLog(condition.Id, id);
            if (weight == 0)
            {
                continue;
            }

            weights.Add(new(id, weight, WeightWords.Reason(term.Text, listed)));
            if (knowledge.Ranking.GroupCaps.Groups.Contains(term.Group))
            {
                groups[term.Group] = groups.GetValueOrDefault(term.Group) + weight;
            }
        }

        AddCaps(weights, groups);
        if (evidence.Photo is { } photo)
        {
            weights.Add(photo.Weigh(condition.Id));
        }

        return weights;
    }

    // A cap is an item of its own, so that the listed weights still add up to the score.
    private void AddCaps(List<EvidenceWeight> weights, Dictionary<string, double> groups)
    {
        double low = Math.Log(knowledge.Ranking.GroupCaps.Low);
        double high = Math.Log(knowledge.Ranking.GroupCaps.High);
        foreach (string group in knowledge.Ranking.GroupCaps.Groups)
        {
            double sum = groups.GetValueOrDefault(group);
            double capped = Math.Clamp(sum, low, high);
            if (capped != sum)
            {
                weights.Add(new(
                    "cap." + group,
                    capped - sum,
                    $"what is known of {group} is limited, so that it cannot outvote what is seen"));
            }
        }
    }
}
