namespace CoatScan.Diagnosis;

/// <summary>What a condition looks like.</summary>
/// <param name="SizeMm">Usual smallest and largest feature, millimeters.</param>
/// <param name="ShapePattern">Shape and pattern.</param>
/// <param name="Relief">Raised, sunk or flat.</param>
/// <param name="ColorGloss">Color and gloss.</param>
/// <param name="Where">Where on the vehicle.</param>
/// <param name="Light">Light that shows it.</param>
public sealed record ConditionLook(
    IReadOnlyList<double> SizeMm,
    string ShapePattern,
    string Relief,
    string ColorGloss,
    string Where,
    string Light);
