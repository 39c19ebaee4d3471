namespace CoatScan.Diagnosis;

/// <summary>How the next tests are chosen.</summary>
/// <param name="LeadingConditions">Tests that one of so many leading conditions lists are candidates.</param>
/// <param name="MinuteCost">Cost of a minute.</param>
/// <param name="InvasivenessCost">Cost of one step of invasiveness.</param>
/// <param name="MinGainBits">Tests of less gain are not named, bits.</param>
/// <param name="MaxTests">Most tests named, looks not counted.</param>
public sealed record NextTestRules(
    int LeadingConditions,
    double MinuteCost,
    double InvasivenessCost,
    double MinGainBits,
    int MaxTests);
