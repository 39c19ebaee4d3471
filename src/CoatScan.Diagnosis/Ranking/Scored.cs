using CoatScan.Findings;

namespace CoatScan.Diagnosis;

/// <summary>One candidate with everything that moved it and its share.</summary>
/// <param name="Id">Id of the candidate.</param>
/// <param name="LogScore">Sum of the weights, natural logarithm.</param>
/// <param name="Share">Share among the candidates, [0, 1].</param>
/// <param name="Evidence">Weights, heaviest first, the base weight last.</param>
internal sealed record Scored(string Id, double LogScore, double Share, IReadOnlyList<EvidenceWeight> Evidence)
{
    /// <summary>Id under which the base weight is listed, so that the listed weights reproduce the shares.</summary>
    public const string Base = "base";

    private const string BaseReason = "how often it is met, relative to the others (trade judgment)";

    /// <summary>Turns sums of weights into shares: softmax, taken from the largest sum so that nothing overflows.</summary>
    public static IReadOnlyList<Scored> Rank(
        IEnumerable<(string Id, double BaseWeight, List<EvidenceWeight> Weights)> candidates)
    {
        Scored[] scored =
        [
            .. candidates.Select(c =>
            {
                EvidenceWeight[] weights =
                [
                    .. c.Weights
                        .OrderByDescending(w => Math.Abs(w.WeightLog))
                        .ThenBy(w => w.Id, StringComparer.Ordinal),
                    new(Base, Math.Log(c.BaseWeight), BaseReason),
                ];
                return new Scored(c.Id, weights.Sum(w => w.WeightLog), 0, weights);
            }),
        ];
        double highest = scored.Max(s => s.LogScore);
        double total = scored.Sum(s => Math.Exp(s.LogScore - highest));
        return
        [
            .. scored
                .Select(s => s with { Share = Math.Exp(s.LogScore - highest) / total })
                .OrderByDescending(s => s.Share)
                .ThenBy(s => s.Id, StringComparer.Ordinal),
        ];
    }
}
