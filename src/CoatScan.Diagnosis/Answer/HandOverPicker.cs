using CoatScan.Findings;

namespace CoatScan.Diagnosis;

/// <summary>Picks what belongs in licensed or qualified hands, by the steps that are planned or only withheld.</summary>
internal sealed class HandOverPicker(KnowledgeBase knowledge)
{
    public IReadOnlyList<HandOver> Pick(string leading, Remedy remedy, PanelFacts facts, EvidenceSet evidence)
    {
        // A step that is withheld for now will come once the test is made; one that is wrong for the condition never will.
        HashSet<string> operations =
            [.. remedy.Steps.Select(s => s.Operation), .. remedy.MustNot.Where(m => m.Scope == "now").Select(m => m.Operation)];
        return
        [
            .. knowledge.HandOvers
                .Where(r => r.Operations.Any(operations.Contains) || r.Conditions?.Contains(leading) == true)
                .Where(r => r.Evidence is null || evidence.HasAny(r.Evidence))
                .Where(r => r.Panels is null || r.Panels.Any(p => facts.Panel.Contains(p, StringComparison.OrdinalIgnoreCase)))
                .Select(r => new HandOver(r.Id, r.Why, r.To)),
        ];
    }
}
