namespace CoatScan.Diagnosis;

/// <summary>What one test that was not made is worth now.</summary>
/// <param name="Test">The test.</param>
/// <param name="GainBits">Expected gain of information over the conditions, bits, 0 or more.</param>
/// <param name="DecisionGain">
/// Expected rise of the chance that the best <see cref="Decision"/> is right, [0, 1]; 0 when no outcome changes it.
/// </param>
/// <param name="Cost">Cost of the test: 1 for one that takes no time and leaves no trace.</param>
/// <param name="MayLead">Conditions that would lead after one of its outcomes.</param>
internal sealed record TestValue(
    TestEntry Test,
    double GainBits,
    double DecisionGain,
    double Cost,
    IReadOnlyList<string> MayLead)
{
    /// <summary>Bits for each unit of cost.</summary>
    public double Worth => GainBits / Cost;
}
