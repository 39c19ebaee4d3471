using CoatScan.Findings;

namespace CoatScan.Diagnosis;

/// <summary>Says whether stated dates fit and what to ask; what follows from it is for people to decide.</summary>
internal sealed class ClaimWriter(KnowledgeBase knowledge)
{
    public ClaimSheet Write(Verdict verdict, string leading, Timing timing)
    {
        bool known = verdict is Verdict.Conclusive or Verdict.Provisional;
        DatesFit dates = (known, timing) switch
        {
            (true, { DoesNotFit.Count: > 0 }) => DatesFit.DoesNotFit,
            (true, { Fits.Count: > 0 }) => DatesFit.Fits,
            _ => DatesFit.CannotTell,
        };
        ClaimRules rules = knowledge.Claim;
        string older = knowledge.ById[leading].PreExistingSigns;
        return new()
        {
            Dates = dates,
            DatesText = rules.Dates[dates switch
            {
                DatesFit.Fits => "fits",
                DatesFit.DoesNotFit => "does_not_fit",
                _ => "cannot_tell",
            }],
            Questions = rules.Questions,
            SignsOfAge = (known && older != "none" ? $"here: {older}; " : "")
                + $"older: {rules.OldSigns}; new: {rules.NewSigns}; {rules.Caution}",
        };
    }
}
