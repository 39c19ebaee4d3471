using CoatScan.Findings;

namespace CoatScan.Diagnosis;

/// <summary>Ranks condition, cause and party from evidence, and says what follows; pure and safe to share.</summary>
/// <remarks>Same facts, same photo evidence and same knowledge give an equal answer; the order of evidence does not matter.</remarks>
public sealed class Diagnostician
{
    private readonly KnowledgeBase _knowledge;
    private readonly ConditionRanker _conditions;
    private readonly BesideFinder _beside;
    private readonly CauseRanker _causes;
    private readonly TestValuer _values;
    private readonly VerdictRules _verdicts;
    private readonly NextTestPlanner _tests;
    private readonly RemedyPlanner _remedies;
    private readonly TimingJudge _timing;
    private readonly ClaimWriter _claim;
    private readonly FilmMapper _film;
    private readonly HandOverPicker _handOvers;
    private readonly CautionPicker _cautions;
    private readonly CustomerNote _note;

    /// <summary>Works with a knowledge base.</summary>
    public Diagnostician(KnowledgeBase knowledge)
    {
        ArgumentNullException.ThrowIfNull(knowledge);
        _knowledge = knowledge;
        _conditions = new(knowledge);
        _beside = new(knowledge);
        _causes = new(knowledge);
        _values = new(knowledge);
        _verdicts = new(knowledge, _values);
        _tests = new(knowledge);
        _remedies = new(knowledge);
        _timing = new(knowledge);
        _claim = new(knowledge);
        _film = new(knowledge);
        _handOvers = new(knowledge);
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

        FinishRule[] finishes = [.. _knowledge.Finishes.Where(f => evidence.Has(f.Evidence))];
        if (finishes.FirstOrDefault(f => f.NotPaint) is { } film)
        {
            return NotPaint(film, facts, evidence);
        }

        IReadOnlyList<Scored> ranked = _conditions.Rank(evidence);
        string leading = ranked[0].Id;
        IReadOnlyList<string> beside = _beside.Find(ranked, evidence);
        IReadOnlyList<Scored> competing = BesideFinder.Competing(ranked, beside);
        IReadOnlyList<OpenPair> ofLeading = OpenPairs.OfLeading(_knowledge, competing, evidence);
        Dictionary<string, Decision> decisions = Decisions(evidence);
        IReadOnlyList<TestValue> values = _values.Value(competing, decisions, evidence);
        (Verdict verdict, IReadOnlyList<string> reasons) = ShotLimits.Cap(
            Veiled(_verdicts.Condition(competing, values, decisions, evidence), finishes), _knowledge.ById[leading], evidence, photo);
        bool decided = verdict is Verdict.Conclusive or Verdict.Sound;
        IReadOnlyList<OpenPair> open = decided ? ofLeading : OpenPairs.Find(_knowledge, competing, evidence);
        IReadOnlyList<Contradiction> contradictions =
            [.. _knowledge.Contradictions.Where(c => evidence.Has(c.First) && evidence.Has(c.Second))];

        IReadOnlyList<CauseShare> causes = _causes.Rank(leading, evidence);
        IReadOnlyList<PartyShare> parties = PartyReasons.With(_causes.Parties(causes), causes, _knowledge);
        (Verdict partyVerdict, IReadOnlyList<string> partyReasons) = _verdicts.Party(verdict, leading, parties, contradictions);
        IReadOnlyList<NextTest> nextTests = (decided, partyVerdict) switch
        {
            (false, _) => _tests.ForCondition(competing, values, open, contradictions, evidence),
            (true, Verdict.Inconclusive) => _tests.ForParty(leading, ofLeading, values, contradictions, evidence),
            _ => _tests.ForName(ofLeading, values, evidence),
        };
        IReadOnlyList<string> deepestFirst = _remedies.DeepestFirst([leading, .. beside]);
        Remedy remedy = _remedies.Plan(new(verdict, ranked, beside, ofLeading, facts, evidence));
        Timing timing = verdict == Verdict.Inconclusive ? Timing.CannotTell : _timing.Judge(leading, evidence);
        string? second = beside.Count > 0 ? beside[0]
            : ranked[1].Share >= _knowledge.Ranking.SecondConditionMinShare ? ranked[1].Id
            : null;
        return new()
        {
            Verdict = verdict,
            VerdictReasons = [.. reasons, .. BesideReasons(deepestFirst, leading), .. partyReasons],
            Evidence = evidence.Items,
            Conditions = [.. ranked.Select(Share)],
            Beside = [.. deepestFirst.Where(c => c != leading)],
            Causes = second is null ? causes : [.. causes, .. _causes.Rank(second, evidence)],
            Parties = parties,
            PartyVerdict = partyVerdict,
            LookAlikes = [.. open.Select(p => LookAlikeOf(p, evidence))],
            NextTests = nextTests,
            Contradictions = contradictions,
            Remedy = remedy,
            Timing = timing,
            Claim = _claim.Write(verdict, leading, timing),
            FilmMap = _film.Map(facts),
            FilmBudget = _remedies.Budget(facts),
            HandOvers = _handOvers.Pick(leading, remedy, facts, evidence),
            Cautions =
            [
                .. finishes.Select(f => f.Says),
                .. _cautions.Pick([leading, .. beside, .. ofLeading.Select(p => p.Other)], remedy, evidence),
            ],
            CustomerText = _note.Write(verdict, competing, causes, nextTests, remedy),
            CareAdvice = Care(verdict, leading, finishes, evidence),
        };
    }

    private static (Verdict Verdict, IReadOnlyList<string> Reasons) Veiled(
        (Verdict Verdict, IReadOnlyList<string> Reasons) judged,
        FinishRule[] finishes) =>
        judged.Verdict is Verdict.Conclusive or Verdict.Sound && finishes.FirstOrDefault(f => f.Veils) is { } veil
            ? (Verdict.Provisional, [.. judged.Reasons, veil.Says])
            : judged;

    private IEnumerable<string> BesideReasons(IReadOnlyList<string> deepestFirst, string leading)
    {
        if (deepestFirst.Count > 1)
        {
            string names = string.Join(" and ", deepestFirst.Where(c => c != leading).Select(c => _knowledge.ById[c].Name));
            yield return $"{names} {(deepestFirst.Count > 2 ? "are" : "is")} present beside {_knowledge.ById[leading].Name}: "
                + $"the remedy starts from {_knowledge.ById[deepestFirst[0]].Name}, which goes deepest.";
        }
    }

    private PanelDiagnosis NotPaint(FinishRule film, PanelFacts facts, EvidenceSet evidence) => new()
    {
        Verdict = Verdict.NotAssessable,
        VerdictReasons = [film.Says],
        Evidence = evidence.Items,
        FilmMap = _film.Map(facts),
        Cautions = [film.Says, .. _cautions.Pick([], Remedy.None, evidence)],
        CustomerText = $"What we see: no paint. {film.Says} What to do first: have the film judged by who applies such film, "
            + "or photograph a place without film.",
        CareAdvice = [.. film.Care, .. _knowledge.Care.General],
    };

    private PanelDiagnosis NoPanel(EvidenceSet evidence) => new()
    {
        Verdict = Verdict.NotAssessable,
        VerdictReasons = ["No painted panel can be recognized in the photo, so no condition follows from it."],
        Evidence = evidence.Items,
        Cautions = _cautions.Pick([], Remedy.None, evidence),
        CustomerText = "What we see: no painted panel that can be judged. "
            + "What to do first: take the photo again, square to the panel, in even light.",
    };

    private Dictionary<string, Decision> Decisions(EvidenceSet evidence) => _knowledge.Conditions.ToDictionary(
        c => c.Id,
        c => new Decision(c.Family, c.Ladder[0].Operation, _causes.LeadingParty(c.Id, evidence)),
        StringComparer.Ordinal);

    private ConditionShare Share(Scored scored) =>
        new(scored.Id, scored.Share, scored.Evidence) { DisplayName = _knowledge.ById[scored.Id].Name };

    private LookAlike LookAlikeOf(OpenPair pair, EvidenceSet evidence) => new(
        pair.Leading,
        pair.Other,
        [.. _tests.DecidingTests(pair, evidence).Select(t => t.Id)],
        pair.Decider.Reading);

    // Prevention belongs to a condition; while that is open only the general card is given.
    private IReadOnlyList<string> Care(
        Verdict verdict,
        string leading,
        FinishRule[] finishes,
        EvidenceSet evidence) =>
    [
        .. finishes.SelectMany(f => f.Care),
        .. verdict == Verdict.Inconclusive ? [] : _knowledge.ById[leading].Prevention,
        .. evidence.Has("finish.age_under_1_month") ? _knowledge.Care.FreshFinish : [],
        .. _knowledge.Care.General,
    ];
}
