namespace CoatScan.DemoPanels;

public sealed class DemoPhotoSetTests
{
    [Fact]
    public void Render_set_is_small_varied_and_named_apart()
    {
        var photos = DemoPhotoSet.Render();

        Assert.InRange(photos.Count, 12, 14);
        Assert.InRange(photos.Sum(p => p.Jpeg.Length), 100_000, 3_000_000);
        Assert.Equal(photos.Count, photos.Select(p => p.FileName).Distinct().Count());
        Assert.Equal(photos.Count, photos.Select(p => p.VisualClass).Distinct().Count());
        Assert.Contains(photos, p => p.VisualClass == VisualClassIds.Sound);
        Assert.Contains(photos, p => p.VisualClass == VisualClassIds.NotAPanel);
        Assert.True(photos.Max(p => p.MmPerPx) > 5 * photos.Min(p => p.MmPerPx), "One photo is near, one far.");
        Assert.All(photos, p => Assert.Equal([0xFF, 0xD8], p.Jpeg[..2]));
    }
}
