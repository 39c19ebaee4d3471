namespace CoatScan.Diagnosis;

/// <summary>Limits that turn readings into evidence.</summary>
/// <param name="FilmFillerAboveUm">Any reading above means filler, micrometers.</param>
/// <param name="FilmHighAboveUm">Any reading above means a high film, micrometers.</param>
/// <param name="FilmLowBelowUm">Any reading below means a low film, micrometers.</param>
/// <param name="FilmUnevenMedianAboveUm">A median above means a repaint or uneven film, micrometers.</param>
/// <param name="GlossLowBelow">Gloss below is low, gloss units at 60 degrees.</param>
/// <param name="GlossHighFrom">Gloss from here is high, gloss units at 60 degrees.</param>
/// <param name="DeltaEHighAbove">A color difference above is seen, CIEDE2000.</param>
/// <param name="DeltaELowBelow">A color difference below is not seen, CIEDE2000.</param>
public sealed record ReadingLimits(
    double FilmFillerAboveUm,
    double FilmHighAboveUm,
    double FilmLowBelowUm,
    double FilmUnevenMedianAboveUm,
    double GlossLowBelow,
    double GlossHighFrom,
    double DeltaEHighAbove,
    double DeltaELowBelow);
