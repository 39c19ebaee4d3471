using CoatScan.Findings;

namespace CoatScan.Diagnosis;

/// <summary>Settings of a band of panel temperature.</summary>
/// <param name="UpToC">Panels up to here, Celsius.</param>
/// <param name="Speed">Thinner speed.</param>
/// <param name="FlashMin">Flash between coats, minutes.</param>
/// <param name="Note">What to mind.</param>
public sealed record SprayBand(double UpToC, string Speed, SprayRange FlashMin, string Note);
