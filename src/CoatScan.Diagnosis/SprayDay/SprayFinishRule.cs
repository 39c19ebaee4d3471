using CoatScan.Findings;

namespace CoatScan.Diagnosis;

/// <summary>What belongs to a finish.</summary>
/// <param name="Recoat">When it can be recoated.</param>
/// <param name="Pot">Its pot life.</param>
/// <param name="CoatUm">Dry film of one coat, micrometers.</param>
public sealed record SprayFinishRule(string Recoat, string Pot, SprayRange CoatUm);
