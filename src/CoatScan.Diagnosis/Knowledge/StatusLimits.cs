namespace CoatScan.Diagnosis;

/// <summary>Limits of the verdicts.</summary>
/// <param name="ConditionMinShare">Share of the leading condition, (0, 1).</param>
/// <param name="ConditionMinRatio">Its lead over the second, 1 or more.</param>
/// <param name="ActionMinShare">Share of the leading action below which nothing can be said to do, (0, 1).</param>
/// <param name="DecisionPrice">
/// Rise of the chance of a right decision for which a test of cost 1 is worth asking, (0, 1).
/// </param>
/// <param name="OpenLookAlikeMinShare">Share from which an undecided look-alike is named, (0, 1).</param>
/// <param name="PartyMinShare">Share of the leading party, (0, 1).</param>
/// <param name="PartyMinRatio">Its lead over the second, 1 or more.</param>
public sealed record StatusLimits(
    double ConditionMinShare,
    double ConditionMinRatio,
    double ActionMinShare,
    double DecisionPrice,
    double OpenLookAlikeMinShare,
    double PartyMinShare,
    double PartyMinRatio);
