namespace CoatScan.DemoPanels;

public sealed class ContactSheetTests
{
    private static readonly DemoPanelOptions Tiny = new() { WidthPx = 160, HeightPx = 160 };

    [Fact]
    public void Compose_three_panels_in_two_columns_makes_two_rows()
    {
        var panels = Enumerable.Range(0, 3).Select(i => DemoPanelRenderer.Render(VisualClassIds.Sound, (ulong)i, Tiny)).ToList();

        var sheet = ContactSheet.Compose(panels, columns: 2, reduction: 2);

        Assert.Equal((160, 160), (sheet.WidthPx, sheet.HeightPx));
        Assert.Equal(3 * 160 * 160, sheet.Rgb.Length);
        Assert.Equal(MeanOfSquare(panels[1], 0, 0), sheet.Rgb[3 * 80]);

        // The fourth place stays empty.
        Assert.Equal(0, sheet.Rgb[3 * ((159 * 160) + 159)]);
        Assert.Equal([0xFF, 0xD8], sheet.EncodeJpeg(80)[..2]);
    }

    [Fact]
    public void Compose_with_mask_tints_the_fault_alone()
    {
        var panel = DemoPanelRenderer.Render(VisualClassIds.FilmLoss, 1, Tiny);

        var plain = ContactSheet.Compose([panel], 1, 1);
        var tinted = ContactSheet.Compose([panel], 1, 1, showMask: true);

        for (var at = 0; at < panel.Mask.Length; at++)
        {
            var isTinted = plain.Rgb[3 * at] != tinted.Rgb[3 * at] || plain.Rgb[(3 * at) + 1] != tinted.Rgb[(3 * at) + 1];
            Assert.True(panel.Mask[at] || !isTinted);
        }

        Assert.NotEqual(plain.Rgb, tinted.Rgb);
    }

    [Fact]
    public void Compose_no_panel_or_mixed_sizes_are_refused()
    {
        var small = DemoPanelRenderer.Render(VisualClassIds.Sound, 1, Tiny);
        var wide = DemoPanelRenderer.Render(VisualClassIds.Sound, 1, Tiny with { WidthPx = 200 });

        Assert.Throws<ArgumentException>(() => ContactSheet.Compose([], 1, 1));
        Assert.Throws<ArgumentException>(() => ContactSheet.Compose([small, wide], 1, 1));
        Assert.Throws<ArgumentOutOfRangeException>(() => ContactSheet.Compose([small], 0, 1));
        Assert.Throws<ArgumentOutOfRangeException>(() => ContactSheet.Compose([small], 1, 0));
        Assert.Throws<ArgumentOutOfRangeException>(() => ContactSheet.Compose([small], 1, 161));
    }

    private static int MeanOfSquare(DemoPanel panel, int x, int y)
    {
        var at = (y * panel.WidthPx) + x;
        return (panel.Rgb[3 * at] + panel.Rgb[3 * (at + 1)] + panel.Rgb[3 * (at + panel.WidthPx)]
            + panel.Rgb[3 * (at + panel.WidthPx + 1)]) / 4;
    }
}
