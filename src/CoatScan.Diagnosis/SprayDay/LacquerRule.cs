using CoatScan.Findings;

namespace CoatScan.Diagnosis;

/// <summary>What damp air does to lacquer.</summary>
/// <param name="RetarderAbovePercent">Humidity above which retarder is needed, percent.</param>
/// <param name="RetarderSharePercent">How much, percent of the thinner's volume.</param>
/// <param name="Text">Why.</param>
public sealed record LacquerRule(double RetarderAbovePercent, SprayRange RetarderSharePercent, string Text);
