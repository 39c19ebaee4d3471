using CoatScan.Findings;

namespace CoatScan.Diagnosis;

/// <summary>What air does to waterborne color.</summary>
/// <param name="FlashMin">Flash, minutes.</param>
/// <param name="DryBelowPercent">Dry air below, percent.</param>
/// <param name="DampAbovePercent">Damp air above, percent.</param>
/// <param name="DryText">What to do in dry air.</param>
/// <param name="DampText">What to do in damp air.</param>
/// <param name="FlashText">How to tell that it has flashed.</param>
public sealed record WaterborneRule(
    SprayRange FlashMin,
    double DryBelowPercent,
    double DampAbovePercent,
    string DryText,
    string DampText,
    string FlashText);
