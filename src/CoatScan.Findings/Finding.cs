namespace CoatScan.Findings;

/// <summary>What is wrong with one painted panel, why, who answers for it, what to do, and how sure that is.</summary>
/// <remarks>Equal photo bytes, equal facts and equal provenance give an equal finding, but for name, time and what was seen before.</remarks>
public sealed record Finding
{
    /// <summary>Resource name, <c>findings/{id}</c>.</summary>
    public required string Name { get; init; }

    /// <summary>When the finding was made, UTC.</summary>
    public required DateTimeOffset CreateTime { get; init; }

    /// <summary>How far the condition is decided.</summary>
    public required Verdict Verdict { get; init; }

    /// <summary>Why the verdict is what it is, one sentence each, most weighty first.</summary>
    public IReadOnlyList<string> VerdictReasons { get; init; } = [];

    /// <summary>The caller's name of the panel; empty if not given.</summary>
    public string Panel { get; init; } = "";

    /// <summary>The caller's own reference (claim, lot); never parsed; empty if not given.</summary>
    public string ExternalRef { get; init; } = "";

    /// <summary>The photos looked at, in the order sent; empty when causes were ranked without a photo.</summary>
    public IReadOnlyList<PhotoReport> Photos { get; init; } = [];

    /// <summary>What the photos show, most probable first; probabilities sum to 1 over all classes of the model.</summary>
    public IReadOnlyList<VisualClassShare> VisualClasses { get; init; } = [];

    /// <summary>
    /// Share of rendered panels, [0, 1], whose true class is among those marked <see cref="VisualClassShare.Possible"/>, by one photo; null
    /// without photos. Nothing is promised for real photos.
    /// </summary>
    public double? SetCoverage { get; init; }

    /// <summary>Measured values, present or absent with a reason.</summary>
    public IReadOnlyList<Measurement> Measurements { get; init; } = [];

    /// <summary>Ratings by published standards, each computed from a measured area or count.</summary>
    public IReadOnlyList<Rating> Ratings { get; init; } = [];

    /// <summary>The evidence that was ranked: what the caller said, what readings say, what the photos show.</summary>
    public IReadOnlyList<EvidenceItem> Evidence { get; init; } = [];

    /// <summary>Conditions, most probable first.</summary>
    public IReadOnlyList<ConditionShare> Conditions { get; init; } = [];

    /// <summary>Ids of conditions that are present beside the leading one, the one that goes deepest first.</summary>
    public IReadOnlyList<string> Beside { get; init; } = [];

    /// <summary>Causes inside the leading conditions, most probable first.</summary>
    public IReadOnlyList<CauseShare> Causes { get; init; } = [];

    /// <summary>Who answers, most probable first; shares of the leading condition's causes, summed by party.</summary>
    public IReadOnlyList<PartyShare> Parties { get; init; } = [];

    /// <summary>How far the question who answers is decided: <see cref="Verdict.Conclusive"/> or not.</summary>
    public Verdict PartyVerdict { get; init; } = Verdict.Inconclusive;

    /// <summary>Look-alikes that are still open, with the tests that tell them apart.</summary>
    public IReadOnlyList<LookAlike> LookAlikes { get; init; } = [];

    /// <summary>What to test next, most useful first.</summary>
    public IReadOnlyList<NextTest> NextTests { get; init; } = [];

    /// <summary>Statements that cannot both be right.</summary>
    public IReadOnlyList<Contradiction> Contradictions { get; init; } = [];

    /// <summary>What to do, least invasive first, and what not to do.</summary>
    public Remedy Remedy { get; init; } = Remedy.None;

    /// <summary>Whether it came gradually, from an event or from workmanship.</summary>
    public Timing Timing { get; init; } = Timing.CannotTell;

    /// <summary>Whether stated dates fit, and what to ask.</summary>
    public ClaimSheet Claim { get; init; } = ClaimSheet.None;

    /// <summary>What the film readings say, panel by panel; empty without readings.</summary>
    public IReadOnlyList<FilmMapEntry> FilmMap { get; init; } = [];

    /// <summary>How much film may be spent; null without readings of the panel.</summary>
    public FilmBudget? FilmBudget { get; init; }

    /// <summary>Work that belongs in licensed or qualified hands.</summary>
    public IReadOnlyList<HandOver> HandOvers { get; init; } = [];

    /// <summary>Safety cautions; always shown.</summary>
    public IReadOnlyList<string> Cautions { get; init; } = [];

    /// <summary>Plain words for the vehicle's owner.</summary>
    public string CustomerText { get; init; } = "";

    /// <summary>How to keep it from coming back.</summary>
    public IReadOnlyList<string> CareAdvice { get; init; } = [];

    /// <summary>What the caller knew, filled in from scale cards: with the photos, all that is needed to judge again. Null in findings
    /// that were stored before it was kept.</summary>
    public PanelFacts? Facts { get; init; }

    /// <summary>What produced the finding.</summary>
    public required Provenance Provenance { get; init; }
}
