namespace CoatScan.DemoPanels;

/// <summary>A dozen photos to try the service with, always the same.</summary>
/// <remarks>Their seeds lie outside every range that training or evaluation may use: <see cref="FirstReservedSeed"/> and up.</remarks>
public static class DemoPhotoSet
{
    /// <summary>Seeds from here on belong to the demo set; training and evaluation stay below.</summary>
    public const ulong FirstReservedSeed = 1UL << 60;

    private const int JpegQuality = 86;

    private static readonly (string Name, string VisualClass, ulong Seed, PanelView View, double MmPerPx)[] Entries =
    [
        ("sound-half-panel", VisualClassIds.Sound, 6, PanelView.OneEdge, 0.3),
        ("spots-hood", VisualClassIds.Deposits, 5, PanelView.CloseUp, 0.16),
        ("rings-after-rain", VisualClassIds.Rings, 2, PanelView.CloseUp, 0.12),
        ("blisters-near", VisualClassIds.Domes, 1, PanelView.CloseUp, 0.06),
        ("craters-fresh-paint", VisualClassIds.Craters, 6, PanelView.CloseUp, 0.06),
        ("waves-in-reflection", VisualClassIds.WavyTexture, 6, PanelView.CloseUp, 0.14),
        ("runs-on-door", VisualClassIds.Runs, 1, PanelView.CloseUp, 0.2),
        ("cracks-old-repaint", VisualClassIds.CrackNetwork, 1, PanelView.CloseUp, 0.15),
        ("scratches-door-edge", VisualClassIds.ParallelScratches, 1, PanelView.OneEdge, 0.25),
        ("stone-chips-near", VisualClassIds.Chips, 7, PanelView.CloseUp, 0.1),
        ("peeling-whole-panel-far", VisualClassIds.FilmLoss, 9, PanelView.WholePanel, 0.6),
        ("rust-lower-edge", VisualClassIds.Rust, 1, PanelView.OneEdge, 0.3),
        ("not-a-panel", VisualClassIds.NotAPanel, 5, PanelView.Any, 1),
    ];

    /// <summary>Renders all photos, 1200 x 900 px, one after the other.</summary>
    /// <returns>The photos in a fixed order; under 3 MB together.</returns>
    public static IReadOnlyList<DemoPhoto> Render()
    {
        var photos = new List<DemoPhoto>(Entries.Length);
        foreach (var entry in Entries)
        {
            var options = new DemoPanelOptions { WidthPx = 1200, HeightPx = 900, View = entry.View, MmPerPx = entry.MmPerPx };
            var panel = DemoPanelRenderer.Render(entry.VisualClass, FirstReservedSeed + entry.Seed, options);
            photos.Add(new DemoPhoto(entry.Name + ".jpg", entry.VisualClass, panel.MmPerPx, panel.EncodeJpeg(JpegQuality)));
        }

        return photos;
    }
}
