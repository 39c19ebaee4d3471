namespace CoatScan.Diagnosis;

/// <summary>Limits that turn the readings of a panel into one word; all micrometers.</summary>
/// <param name="ThinBelowUm">A median below is thin.</param>
/// <param name="RepaintAboveUm">A median above is a repaint.</param>
/// <param name="SeveralAboveUm">A highest reading above is several finishes.</param>
/// <param name="FillerAboveUm">A highest reading above is filler.</param>
/// <param name="UnevenWithinUm">A spread inside a panel above is uneven.</param>
/// <param name="UnevenBetweenUm">A median that stands out from the others by more is uneven.</param>
/// <param name="Texts">The classes in words, by id.</param>
public sealed record FilmMapLimits(
    double ThinBelowUm,
    double RepaintAboveUm,
    double SeveralAboveUm,
    double FillerAboveUm,
    double UnevenWithinUm,
    double UnevenBetweenUm,
    IReadOnlyDictionary<string, string> Texts);
