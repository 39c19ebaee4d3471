using CoatScan.Findings;

namespace CoatScan.Diagnosis;

/// <summary>Picks the cautions: the condition's own, those of the steps, and those that always hold.</summary>
internal sealed class CautionPicker(KnowledgeBase knowledge)
{
    public IReadOnlyList<string> Pick(IEnumerable<string> conditions, Remedy remedy, EvidenceSet evidence)
    {
        HashSet<string> operations = [.. remedy.Steps.Select(s => s.Operation)];
        IEnumerable<string> own = conditions.SelectMany(c => knowledge.ById[c].Cautions);
        IEnumerable<string> general = knowledge.Cautions
            .Where(c => c.Operations.Count == 0 || c.Operations.Any(operations.Contains))
            .Where(c => c.Evidence is null || evidence.HasAny(c.Evidence))
            .Select(c => c.Text);
        return [.. own.Concat(general).Distinct(StringComparer.Ordinal)];
    }
}
