using System.Globalization;
using CoatScan.Findings;

namespace CoatScan.Diagnosis;

/// <summary>Rules out steps by the film that is there and by the kind of finish, and says why.</summary>
internal sealed class RemedyGates(KnowledgeBase knowledge)
{
    /// <summary>How long the obstacle holds: until the film or the finish is another.</summary>
    private const string UntilMet = "until_met";

    /// <summary>The film budget by the readings of the panel; null without readings.</summary>
    public FilmBudget? Budget(PanelFacts facts)
    {
        IReadOnlyList<double> um = FilmMapper.OfPanel(facts);
        if (um.Count == 0)
        {
            return null;
        }

        FilmBand band = Band(um);
        double? depth = facts.Readings.FaultDepthUm;
        string fault = depth is { } d && band.AllowanceUm is { } allowance
            ? TooDeep(d, allowance)
                ? $"; the fault is {Um(d)} um deep, more than may be taken with {Um(knowledge.Film.ReserveUm)} um kept: straight to paint"
                : $"; the fault is {Um(d)} um deep and can be taken out"
            : "";
        return new(um.Min(), band.AllowanceUm, depth, $"{band.Text}{fault}; {knowledge.Film.General}");
    }

    /// <summary>Operations that are ruled out for this panel, each once.</summary>
    public IReadOnlyList<MustNot> Closed(PanelFacts facts, EvidenceSet evidence)
    {
        var closed = new List<MustNot>();
        foreach (FinishRule rule in knowledge.Finishes.Where(r => evidence.Has(r.Evidence)))
        {
            closed.AddRange(rule.Forbids.Select(o => new MustNot(o, rule.Why, UntilMet)));
        }

        IReadOnlyList<double> um = FilmMapper.OfPanel(facts);
        if (um.Count > 0)
        {
            FilmBand band = Band(um);
            closed.AddRange(band.Forbids.Select(o => new MustNot(o, $"film budget, {band.Text}", UntilMet)));
            if (facts.Readings.FaultDepthUm is { } depth && band.AllowanceUm is { } allowance && TooDeep(depth, allowance))
            {
                closed.AddRange(knowledge.Operations.Values.Where(o => o.SpendsUm is not null).Select(o => new MustNot(
                    o.Id, $"the fault is {Um(depth)} um deep, and the film budget allows {Um(allowance)} um", UntilMet)));
            }
        }

        return [.. closed.DistinctBy(m => m.Operation)];
    }

    private static string Um(double value) => value.ToString("0.#", CultureInfo.InvariantCulture);

    private bool TooDeep(double depth, double allowance) => depth + knowledge.Film.ReserveUm > allowance;

    // The thinnest place decides what may be taken; but where one place is very thick, no number says what lies above what.
    private FilmBand Band(IReadOnlyList<double> um)
    {
        IReadOnlyList<FilmBand> bands = knowledge.Film.Budget;
        return um.Max() > bands[^2].UpToUm ? bands[^1] : bands.First(b => um.Min() <= b.UpToUm);
    }
}
