using CoatScan.Findings;

namespace CoatScan.Diagnosis;

/// <summary>Turns readings into evidence by the limits of the knowledge base; common practice, no published source.</summary>
internal static class ReadingEvidence
{
    private const string Filler = "film.over_1000_um_or_filler";
    private const string High = "film.over_300_um";
    private const string Uneven = "film.170_to_300_um_or_uneven";
    private const string Even = "film.80_to_170_um_even";
    private const string Low = "film.under_80_um";
    private const string GlossLow = "measured.gloss_60_under_70";
    private const string GlossHigh = "measured.gloss_60_at_least_85";
    private const string DeltaEHigh = "measured.delta_e_over_2";
    private const string DeltaELow = "measured.delta_e_under_1";

    public static IReadOnlyList<string> Ids { get; } =
        [Filler, High, Uneven, Even, Low, GlossLow, GlossHigh, DeltaEHigh, DeltaELow];

    /// <summary>Evidence that the readings give, with the reading's field.</summary>
    public static IEnumerable<(string Id, string Field)> From(PanelFacts facts, ReadingLimits limits)
    {
        Readings readings = facts.Readings;
        if (FilmMapper.OfPanel(facts) is { Count: > 0 } um)
        {
            yield return (Film(um, limits), readings.FilmUm.Count > 0 ? "readings.filmUm" : "readings.filmPanels");
        }

        if (readings.Gloss60 is { } gloss)
        {
            if (gloss < limits.GlossLowBelow)
            {
                yield return (GlossLow, "readings.gloss60");
            }
            else if (gloss >= limits.GlossHighFrom)
            {
                yield return (GlossHigh, "readings.gloss60");
            }
        }

        if (readings.DeltaE00 is { } difference)
        {
            if (difference > limits.DeltaEHighAbove)
            {
                yield return (DeltaEHigh, "readings.deltaE00");
            }
            else if (difference < limits.DeltaELowBelow)
            {
                yield return (DeltaELow, "readings.deltaE00");
            }
        }
    }

    // One high or low spot decides before the middle does: a filler or a thin spot is local.
    private static string Film(IReadOnlyList<double> readingsUm, ReadingLimits limits)
    {
        double[] sorted = [.. readingsUm.Order()];
        double median = FilmMapper.Median(sorted);
        return sorted switch
        {
            [.., var most] when most > limits.FilmFillerAboveUm => Filler,
            [.., var most] when most > limits.FilmHighAboveUm => High,
            [var least, ..] when least < limits.FilmLowBelowUm => Low,
            _ when median > limits.FilmUnevenMedianAboveUm => Uneven,
            _ => Even,
        };
    }
}
