using CoatScan.Findings;

namespace CoatScan.Diagnosis;

/// <summary>Says whether the stated dates fit the condition; it never says why they might not.</summary>
internal sealed class TimingJudge(KnowledgeBase knowledge)
{
    public Timing Judge(string condition, EvidenceSet evidence)
    {
        string claimClass = knowledge.ById[condition].ClaimClass;
        TimingRule rule = knowledge.Timing[claimClass];
        return new(
            ClassOf(claimClass),
            Present(rule.Fits, evidence),
            [
                .. Present(rule.DoesNotFit, evidence),
                .. knowledge.Contradictions
                    .Where(c => c.Doubts == "date" && evidence.Has(c.First) && evidence.Has(c.Second))
                    .Select(c => c.Text),
            ]);
    }

    private static IReadOnlyList<string> Present(IReadOnlyDictionary<string, string> texts, EvidenceSet evidence) =>
        [.. texts.Where(p => evidence.Has(p.Key)).OrderBy(p => p.Key, StringComparer.Ordinal).Select(p => p.Value)];

    private static TimingClass ClassOf(string claimClass) => claimClass switch
    {
        "gradual" => TimingClass.Gradual,
        "event" => TimingClass.Event,
        "event_or_accumulated" => TimingClass.EventOrAccumulated,
        "workmanship" => TimingClass.Workmanship,
        "ageing_or_workmanship" => TimingClass.AgeingOrWorkmanship,
        _ => TimingClass.CannotTell,
    };
}
