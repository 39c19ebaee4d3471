using CoatScan.Findings;

namespace CoatScan.Diagnosis;

/// <summary>Turns the waits of a young finish into words, and into dates where its day of application is known.</summary>
internal sealed class WaitDates(KnowledgeBase knowledge)
{
    public RemedyStep Dated(RemedyStep step, PanelFacts facts, EvidenceSet evidence)
    {
        WaitRule? rule = knowledge.Waits.FirstOrDefault(w =>
            w.Operations.Contains(step.Operation)
            && (w.WhenAny is null || evidence.HasAny(w.WhenAny))
            && (w.UnlessAny is null || !evidence.HasAny(w.UnlessAny)));
        if (rule is null || (facts.AppliedOn is null && !evidence.Has("finish.age_under_1_month")))
        {
            return step;
        }

        return step with
        {
            Wait = step.Wait is null ? rule.Text : $"{step.Wait}; {rule.Text}",
            NotBefore = facts.AppliedOn?.AddDays(rule.NotBeforeDays),
            BetterFrom = facts.AppliedOn?.AddDays(rule.BetterDays),
        };
    }
}
