using System.Globalization;
using CoatScan.Findings;

namespace CoatScan.Diagnosis;

/// <summary>Turns film readings into a map: panel by panel, in words, uneven panels flagged.</summary>
internal sealed class FilmMapper(KnowledgeBase knowledge)
{
    /// <summary>The panel of the finding first, then the others in the order sent.</summary>
    public IReadOnlyList<FilmMapEntry> Map(PanelFacts facts)
    {
        PanelFilm[] panels = [.. Panels(facts)];
        double[] medians = [.. panels.Select(p => Median(p.FilmUm))];
        return [.. panels.Select((p, i) => Entry(p, medians, i))];
    }

    /// <summary>Readings of the panel of the finding; they may stand in the map alone.</summary>
    public static IReadOnlyList<double> OfPanel(PanelFacts facts) =>
        facts.Readings.FilmUm.Count > 0
            ? facts.Readings.FilmUm
            : facts.Readings.FilmPanels.FirstOrDefault(p => IsPanel(p, facts))?.FilmUm ?? [];

    public static double Median(IReadOnlyList<double> um)
    {
        double[] sorted = [.. um.Order()];
        int half = sorted.Length / 2;
        return sorted.Length % 2 == 1 ? sorted[half] : (sorted[half - 1] + sorted[half]) / 2;
    }

    private static IEnumerable<PanelFilm> Panels(PanelFacts facts)
    {
        IReadOnlyList<double> own = OfPanel(facts);
        if (own.Count > 0)
        {
            yield return new(facts.Panel, own);
        }

        foreach (PanelFilm other in facts.Readings.FilmPanels.Where(p => !IsPanel(p, facts)))
        {
            yield return other;
        }
    }

    private static bool IsPanel(PanelFilm film, PanelFacts facts) =>
        string.Equals(film.Panel, facts.Panel, StringComparison.OrdinalIgnoreCase);

    private static string Um(double value) => value.ToString("0.#", CultureInfo.InvariantCulture);

    private FilmMapEntry Entry(PanelFilm panel, double[] medians, int index)
    {
        FilmMapLimits limits = knowledge.Film.Map;
        double low = panel.FilmUm.Min();
        double high = panel.FilmUm.Max();
        double median = medians[index];
        FilmClass filmClass =
            high > limits.FillerAboveUm ? FilmClass.Filler
            : high > limits.SeveralAboveUm ? FilmClass.SeveralFinishes
            : median > limits.RepaintAboveUm ? FilmClass.Repaint
            : median < limits.ThinBelowUm ? FilmClass.Thin
            : FilmClass.Factory;
        double[] others = [.. medians.Where((_, i) => i != index)];
        bool within = high - low > limits.UnevenWithinUm;
        bool between = others.Length > 0 && Math.Abs(median - Median(others)) > limits.UnevenBetweenUm;
        string text = $"{Um(low)} to {Um(high)} um, median {Um(median)} um, {limits.Texts[Key(filmClass)]}"
            + (within ? "; uneven in itself" : "")
            + (between ? $"; stands out from the other panels (median {Um(Median(others))} um)" : "");
        return new(panel.Panel, panel.FilmUm.Count, low, median, high, filmClass, within || between, text);
    }

    private static string Key(FilmClass filmClass) => filmClass switch
    {
        FilmClass.Thin => "thin",
        FilmClass.Factory => "factory",
        FilmClass.Repaint => "repaint",
        FilmClass.SeveralFinishes => "several_finishes",
        _ => "filler",
    };
}
