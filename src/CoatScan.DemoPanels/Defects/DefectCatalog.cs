using CoatScan.DemoPanels.Surface;

namespace CoatScan.DemoPanels.Defects;

/// <summary>Which painter draws which visual class.</summary>
internal static class DefectCatalog
{
    private static readonly Dictionary<string, Action<PanelContext>> Painters = new()
    {
        [VisualClassIds.RoundSpots] = RoundSpots.Paint,
        [VisualClassIds.Rings] = Rings.Paint,
        [VisualClassIds.Domes] = Domes.Paint,
        [VisualClassIds.Craters] = Craters.Paint,
        [VisualClassIds.Nibs] = Nibs.Paint,
        [VisualClassIds.WavyTexture] = WavyTexture.Paint,
        [VisualClassIds.Runs] = Runs.Paint,
        [VisualClassIds.Wrinkles] = Wrinkles.Paint,
        [VisualClassIds.CrackNetwork] = CrackNetwork.Paint,
        [VisualClassIds.Scratches] = Scratches.Paint,
        [VisualClassIds.Chips] = Chips.Paint,
        [VisualClassIds.FilmLoss] = FilmLoss.Paint,
        [VisualClassIds.Rust] = RustBloom.Paint,
        [VisualClassIds.Dulling] = Dulling.Paint,
    };

    public static bool IsFault(string visualClass) => Painters.ContainsKey(visualClass);

    public static void Paint(string visualClass, PanelContext context) => Painters[visualClass](context);
}
