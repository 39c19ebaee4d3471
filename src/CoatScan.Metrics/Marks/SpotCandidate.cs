namespace CoatScan.Metrics.Marks;

/// <summary>A seed that stands out from the paint around it.</summary>
/// <param name="Seed">Where and how large.</param>
/// <param name="Around">The paint around it.</param>
/// <param name="Contrast">Core less paint, L*.</param>
internal readonly record struct SpotCandidate(SpotSeed Seed, Surround Around, float Contrast);
