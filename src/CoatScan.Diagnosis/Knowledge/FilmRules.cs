namespace CoatScan.Diagnosis;

/// <summary>What film readings point to, and how much polishing and sanding may take.</summary>
/// <param name="Map">Limits of the map.</param>
/// <param name="ReserveUm">Kept over the depth of a fault, micrometers.</param>
/// <param name="Budget">Bands, thinnest first; the last holds every thicker reading.</param>
/// <param name="General">What holds in every band.</param>
/// <param name="Sources">Keys of the sources.</param>
public sealed record FilmRules(
    FilmMapLimits Map,
    double ReserveUm,
    IReadOnlyList<FilmBand> Budget,
    string General,
    IReadOnlyList<string> Sources);
