using CoatScan.DemoPanels.Surface;

namespace CoatScan.DemoPanels.Defects;

/// <summary>Which painter draws which visual class.</summary>
internal static class DefectCatalog
{
    private static readonly Dictionary<string, Action<PanelContext>> Painters = new()
    {
        [VisualClassIds.Stains] = Stains.Paint,
        [VisualClassIds.Deposits] = Deposits.Paint,
        [VisualClassIds.Rings] = Rings.Paint,
        [VisualClassIds.Domes] = Domes.Paint,
        [VisualClassIds.Craters] = Craters.Paint,
        [VisualClassIds.Pits] = Pits.Paint,
        [VisualClassIds.Nibs] = Nibs.Paint,
        [VisualClassIds.Grit] = Grit.Paint,
        [VisualClassIds.WavyTexture] = WavyTexture.Paint,
        [VisualClassIds.Runs] = Runs.Paint,
        [VisualClassIds.Wrinkles] = Wrinkles.Paint,
        [VisualClassIds.CrackNetwork] = CrackNetwork.Paint,
        [VisualClassIds.RandomCracks] = RandomCracks.Paint,
        [VisualClassIds.ParallelScratches] = ParallelScratches.Paint,
        [VisualClassIds.Swirl] = Swirl.Paint,
        [VisualClassIds.SingleScratch] = SingleScratch.Paint,
        [VisualClassIds.Chips] = Chips.Paint,
        [VisualClassIds.FilmLoss] = FilmLoss.Paint,
        [VisualClassIds.Rust] = RustBloom.Paint,
        [VisualClassIds.Dulling] = Dulling.Paint,
        [VisualClassIds.Mottling] = Mottling.Paint,
        [VisualClassIds.RepairOutline] = RepairOutline.Paint,
        [VisualClassIds.ColorDifference] = ColorDifference.Paint,
    };

    public static bool IsFault(string visualClass) => Painters.ContainsKey(visualClass);

    public static void Paint(string visualClass, PanelContext context) => Painters[visualClass](context);
}
