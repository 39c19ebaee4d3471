namespace CoatScan.Findings;

/// <summary>How to look for earlier findings with the same picture.</summary>
/// <param name="MaxDistanceBits">Bits in which the hashes of two pictures may differ, [0, 64].</param>
/// <param name="MaxFindings">Most earlier findings to note on a photo.</param>
public sealed record EarlierLook(int MaxDistanceBits, int MaxFindings);
