namespace CoatScan.Findings;

/// <summary>A test worth making next.</summary>
/// <param name="Test">Id of the test.</param>
/// <param name="GainBits">Expected gain of information over the conditions, bits, 0 or more; null where it cannot be computed.</param>
/// <param name="Minutes">How long it takes, minutes.</param>
/// <param name="Invasiveness">0 leaves no trace, 1 touches the surface, 2 spends film or needs a hidden place, 3 destroys.</param>
/// <param name="Reason">What it decides.</param>
public sealed record NextTest(string Test, double? GainBits, int Minutes, int Invasiveness, string Reason)
{
    /// <summary>Name of the test.</summary>
    public string DisplayName { get; init; } = "";

    /// <summary>How to make it.</summary>
    public string How { get; init; } = "";

    /// <summary>What to watch for; empty if nothing.</summary>
    public string Caution { get; init; } = "";

    /// <summary>Whose consent it needs; empty for a test that spends no film.</summary>
    public string Consent { get; init; } = "";
}
