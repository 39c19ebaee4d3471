using CoatScan.Findings;

namespace CoatScan.Diagnosis;

/// <summary>Ranks condition, cause and party from evidence, and says what follows; pure and safe to share.</summary>
/// <remarks>Same facts, same photo evidence and same knowledge give an equal answer; the order of evidence does not matter.</remarks>
public sealed class Diagnostician
{
    private readonly KnowledgeBase _knowledge;
    private readonly ConditionRanker _conditions;
    private readonly CauseRanker _causes;
    private readonly VerdictRules _verdicts;
    private readonly NextTestPlanner _tests;
    private readonly RemedyPlanner _remedies;
    private readonly TimingJudge _timing;
    private readonly CautionPicker _cautions;
    private readonly CustomerNote _note;

    /// <summary>Works with a knowledge base.</summary>
    public Diagnostician(KnowledgeBase knowledge)
    {
        ArgumentNullException.ThrowIfNull(knowledge);
        _knowledge = knowledge;
        _conditions = new(knowledge);
        _causes = new(knowledge);
        _verdicts = new(knowledge);
        _tests = new(knowledge);
        _remedies = new(knowledge);
        _timing = new(knowledge);
        _cautions = new(knowledge);
        _note = new(knowledge);
    }

    /// <summary>Diagnoses one panel.</summary>
    /// <param name="facts">What the caller knows; checked first.</param>
    /// <param name="photo">What the photos show; null when causes are ranked without a photo.</param>
    /// <exception cref="CoatScanException">The facts are at fault; see <see cref="FactsValidator.Validate"/>.</exception>
    /// <exception cref="ArgumentException">The photo evidence does not fit the knowledge base.</exception>
    public PanelDiagnosis Diagnose(PanelFacts facts, PhotoEvidence? photo)
    {
        FactsValidator.Validate(facts, _knowledge);
        var evidence = new EvidenceSet(facts, photo, _knowledge);
        if (!evidence.PhotoShowsPanel && !evidence.HasCallerForm)
        {
            return NoPanel(evidence);
        }

        IReadOnlyList<Scored> ranked = _conditions.Rank(evidence);
        string leading = ranked[0].Id;
        IReadOnlyList<OpenPair> ofLeading = OpenPairs.OfLeading(_knowledge, ranked, evidence);
        (Verdict verdict, IReadOnlyList<string> reasons) = _verdicts.Condition(ranked, ofLeading, evidence);
        bool decided = verdict is Verdict.Conclusive or Verdict.Sound;
        IReadOnlyList<OpenPair> open = decided ? ofLeading : OpenPairs.Find(_knowledge, ranked, evidence);
        IReadOnlyList<Contradiction> contradictions =
            [.. _knowledge.Contradictions.Where(c => evidence.Has(c.First) && evidence.Has(c.Second))];

        IReadOnlyList<CauseShare> causes = _causes.Rank(leading, evidence);
        IReadOnlyList<PartyShare> parties = _causes.Parties(causes);
        (Verdict partyVerdict, IReadOnlyList<string> partyReasons) = _verdicts.Party(verdict, parties, contradictions);
        IReadOnlyList<NextTest> nextTests = (decided, partyVerdict) switch
        {
            (false, _) => _tests.ForCondition(ranked, open, contradictions, evidence),
            (true, Verdict.Inconclusive) => _tests.ForParty(leading, contradictions, evidence),
            _ => [],
        };
        Remedy remedy = _remedies.Plan(verdict, ranked, ofLeading);
        return new()
        {
            Verdict = verdict,
            VerdictReasons = [.. reasons, .. partyReasons],
            Evidence = evidence.Items,
            Conditions = [.. ranked.Select(Share)],
            Causes = ranked[1].Share >= _knowledge.Ranking.SecondConditionMinShare
                ? [.. causes, .. _causes.Rank(ranked[1].Id, evidence)]
                : causes,
            Parties = parties,
            PartyVerdict = partyVerdict,
            LookAlikes = [.. open.Select(p => LookAlikeOf(p, evidence))],
            NextTests = nextTests,
            Contradictions = contradictions,
            Remedy = remedy,
            Timing = verdict == Verdict.Inconclusive ? Timing.CannotTell : _timing.Judge(leading, evidence),
            Cautions = _cautions.Pick([leading, .. ofLeading.Select(p => p.Other)], remedy, evidence),
            CustomerText = _note.Write(verdict, ranked, causes, nextTests, remedy),
            CareAdvice = Care(verdict, leading, evidence),
        };
    }

    private PanelDiagnosis NoPanel(EvidenceSet evidence) => new()
    {
        Verdict = Verdict.NotAssessable,
        VerdictReasons = ["No painted panel can be recognized in the photo, so no condition follows from it."],
        Evidence = evidence.Items,
        Cautions = _cautions.Pick([], Remedy.None, evidence),
        CustomerText = "What we see: no painted panel that can be judged. "
            + "What to do first: take the photo again, square to the panel, in even light.",
    };

    private ConditionShare Share(Scored scored) =>
        new(scored.Id, scored.Share, scored.Evidence) { DisplayName = _knowledge.ById[scored.Id].Name };

    private LookAlike LookAlikeOf(OpenPair pair, EvidenceSet evidence) => new(
        pair.Leading,
        pair.Other,
        [.. _tests.DecidingTests(pair, evidence).Select(t => t.Id)],
        pair.Decider.Reading);

    // Prevention belongs to a condition; while that is open only the general card is given.
    private IReadOnlyList<string> Care(Verdict verdict, string leading, EvidenceSet evidence) =>
    [
        .. verdict == Verdict.Inconclusive ? [] : _knowledge.ById[leading].Prevention,
        .. evidence.Has("finish.age_under_1_month") ? _knowledge.Care.FreshFinish : [],
        .. _knowledge.Care.General,
    ];
}
