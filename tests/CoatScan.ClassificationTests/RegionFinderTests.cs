using CoatScan.Classification;
using CoatScan.Findings;
using CoatScan.Metrics;

namespace CoatScan.ClassificationTests;

public sealed class RegionFinderTests
{
    [Fact]
    public void Join_of_an_L_gives_disjoint_rectangles_in_original_pixels()
    {
        bool[] marked = [true, true, false, true, false, false, true, false, false];

        var regions = RegionFinder.Join(marked, Planes(30, 30, 2, null));

        Assert.Equal([new Region(0, 0, 0, 40, 20), new Region(0, 0, 20, 20, 60)], regions);
    }

    [Fact]
    public void Join_of_all_cells_is_the_whole_photo_with_millimeters()
    {
        var regions = RegionFinder.Join([.. Enumerable.Repeat(true, 9)], Planes(30, 60, 2, 0.5));

        var region = Assert.Single(regions);
        Assert.Equal((0, 0, 60, 120), (region.StartXPx, region.StartYPx, region.EndXPx, region.EndYPx));

        // 30 x 60 pixels of the planes at 0.5 mm.
        Assert.Equal(15, region.WidthMm!.Value, 1e-9);
        Assert.Equal(30, region.HeightMm!.Value, 1e-9);
    }

    [Fact]
    public void Join_of_nothing_is_empty() => Assert.Empty(RegionFinder.Join(new bool[9], Planes(9, 9, 1, null)));

    [Fact]
    public void Against_compares_with_sound_only()
    {
        var score = new float[VisualClasses.All.Count];
        score[VisualClasses.IndexOf(VisualClasses.Sound)] = 0.1f;
        score[VisualClasses.IndexOf(VisualClasses.Rust)] = 0.3f;

        Assert.Equal(0.75, RegionFinder.Against(score, VisualClasses.IndexOf(VisualClasses.Rust)), 1e-6);
    }

    private static PanelPlanes Planes(int width, int height, double originalPxPerPx, double? mmPerPx)
    {
        var plane = new Plane(width, height);
        return new PanelPlanes
        {
            Red = plane,
            Green = plane,
            Blue = plane,
            Lightness = plane,
            AStar = plane,
            BStar = plane,
            Clipped = new bool[width * height],
            OriginalPxPerPx = originalPxPerPx,
            MmPerPx = mmPerPx,
        };
    }
}
