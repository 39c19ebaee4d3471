namespace CoatScan.Findings;

/// <summary>What a finding was made from beside its photos: with them and its provenance it can be made again.</summary>
/// <param name="Facts">What the caller knew.</param>
/// <param name="Zones">Zones whose colors were compared; null for none.</param>
public sealed record FindingInputs(PanelFacts Facts, ZonePair? Zones);
