namespace CoatScan.Findings;

/// <summary>How to look for earlier findings with the same picture.</summary>
/// <param name="MaxDistanceBits">Bits in which the hashes of two pictures may differ, [0, 64].</param>
/// <param name="MaxFindings">Most earlier findings to note on a photo.</param>
public sealed record EarlierLook(int MaxDistanceBits, int MaxFindings)
{
    /// <summary>A finding that this one follows on: what it noted of the same photos still holds, and it is no news that they were in
    /// it. Null for the first of a panel.</summary>
    public Finding? Before { get; init; }
}
