namespace CoatScan.Diagnosis;

/// <summary>How evidence is weighed; every number is trade judgment.</summary>
/// <param name="LikelihoodClasses">Factor of each class, above 0.</param>
/// <param name="UnlistedSignFactors">Factor of a visible sign that a condition does not list, by group, (0, 1].</param>
/// <param name="GroupCaps">Limits of the product of one group of context evidence.</param>
/// <param name="Status">When a verdict is open.</param>
/// <param name="Photo">What a photo must show clearly.</param>
/// <param name="NextTests">How the next tests are chosen.</param>
/// <param name="SecondConditionMinShare">Share from which the second condition's causes are given too, (0, 1).</param>
/// <param name="DepthOrder">Families of conditions, the one whose repair goes deepest first.</param>
/// <param name="CauseHints">What evidence says about causes of a party or an onset that do not list it.</param>
/// <param name="Readings">How readings become evidence.</param>
public sealed record RankingRules(
    IReadOnlyDictionary<LikelihoodClass, double> LikelihoodClasses,
    IReadOnlyDictionary<string, double> UnlistedSignFactors,
    GroupCaps GroupCaps,
    StatusLimits Status,
    PhotoLimits Photo,
    NextTestRules NextTests,
    double SecondConditionMinShare,
    IReadOnlyList<string> DepthOrder,
    IReadOnlyList<CauseHint> CauseHints,
    ReadingLimits Readings);
