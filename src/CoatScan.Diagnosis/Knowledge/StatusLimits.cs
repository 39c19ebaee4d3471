namespace CoatScan.Diagnosis;

/// <summary>Below these limits a verdict is open.</summary>
/// <param name="ConditionMinShare">Share of the leading condition, (0, 1).</param>
/// <param name="ConditionMinRatio">Its lead over the second, 1 or more.</param>
/// <param name="OpenLookAlikeMinShare">Share from which an undecided look-alike keeps the verdict open, (0, 1).</param>
/// <param name="PartyMinShare">Share of the leading party, (0, 1).</param>
/// <param name="PartyMinRatio">Its lead over the second, 1 or more.</param>
public sealed record StatusLimits(
    double ConditionMinShare,
    double ConditionMinRatio,
    double OpenLookAlikeMinShare,
    double PartyMinShare,
    double PartyMinRatio);
