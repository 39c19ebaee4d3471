using CoatScan.Findings;

namespace CoatScan.Diagnosis;

/// <summary>What the evidence says about one panel; the part of a finding that knowledge gives.</summary>
public sealed record PanelDiagnosis
{
    /// <summary>How far the condition is decided.</summary>
    public required Verdict Verdict { get; init; }

    /// <summary>Why, one sentence each; reasons of an open party verdict last.</summary>
    public IReadOnlyList<string> VerdictReasons { get; init; } = [];

    /// <summary>The evidence that was ranked: caller, readings, photo; each by id.</summary>
    public IReadOnlyList<EvidenceItem> Evidence { get; init; } = [];

    /// <summary>All conditions, most probable first; shares sum to 1 and are the softmax of the summed weights.</summary>
    public IReadOnlyList<ConditionShare> Conditions { get; init; } = [];

    /// <summary>Ids of conditions present beside the leading one, the one that goes deepest first.</summary>
    public IReadOnlyList<string> Beside { get; init; } = [];

    /// <summary>Causes of the leading condition, then of the second where its share is large enough.</summary>
    public IReadOnlyList<CauseShare> Causes { get; init; } = [];

    /// <summary>Who answers for the leading condition, most probable first; sums to 1.</summary>
    public IReadOnlyList<PartyShare> Parties { get; init; } = [];

    /// <summary><see cref="Verdict.Conclusive"/> or <see cref="Verdict.Inconclusive"/>.</summary>
    public Verdict PartyVerdict { get; init; } = Verdict.Inconclusive;

    /// <summary>Look-alikes that are still open.</summary>
    public IReadOnlyList<LookAlike> LookAlikes { get; init; } = [];

    /// <summary>What to test next, most useful first; empty when nothing is open.</summary>
    public IReadOnlyList<NextTest> NextTests { get; init; } = [];

    /// <summary>Statements that cannot both be right.</summary>
    public IReadOnlyList<Contradiction> Contradictions { get; init; } = [];

    /// <summary>What to do and what not to do.</summary>
    public Remedy Remedy { get; init; } = Remedy.None;

    /// <summary>Whether the stated dates fit.</summary>
    public Timing Timing { get; init; } = Timing.CannotTell;

    /// <summary>Whether stated dates fit, and what to ask.</summary>
    public ClaimSheet Claim { get; init; } = ClaimSheet.None;

    /// <summary>What the film readings say, panel by panel.</summary>
    public IReadOnlyList<FilmMapEntry> FilmMap { get; init; } = [];

    /// <summary>How much film may be spent; null without readings of the panel.</summary>
    public FilmBudget? FilmBudget { get; init; }

    /// <summary>Work for licensed or qualified hands.</summary>
    public IReadOnlyList<HandOver> HandOvers { get; init; } = [];

    /// <summary>Safety cautions.</summary>
    public IReadOnlyList<string> Cautions { get; init; } = [];

    /// <summary>Plain words for the owner.</summary>
    public string CustomerText { get; init; } = "";

    /// <summary>How to keep it from coming back.</summary>
    public IReadOnlyList<string> CareAdvice { get; init; } = [];
}
