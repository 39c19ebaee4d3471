using CoatScan.Classification;
using CoatScan.Findings;
using CoatScan.Metrics;

namespace CoatScan.ClassificationTests;

public sealed class RegionFinderTests
{
    private const int Side = CellMap.Side;

    [Fact]
    public void Frame_puts_touching_cells_together_and_the_largest_group_first()
    {
        var marked = Marked((0, 0), (5, 5), (6, 6), (5, 6), (Side - 1, 0));

        var regions = RegionFinder.Frame(marked, Planes(10 * Side, 10 * Side, 2, null));

        // Cells are 10 pixels of the planes, 20 of the original.
        Assert.Equal(
            [new Region(0, 100, 100, 140, 140), new Region(0, 0, 0, 20, 20), new Region(0, 20 * (Side - 1), 0, 20 * Side, 20)], regions);
    }

    [Fact]
    public void Frame_of_all_cells_is_the_whole_photo_with_millimeters()
    {
        var regions = RegionFinder.Frame([.. Enumerable.Repeat(true, CellMap.Count)], Planes(30, 60, 2, 0.5));

        var region = Assert.Single(regions);
        Assert.Equal((0, 0, 60, 120), (region.StartXPx, region.StartYPx, region.EndXPx, region.EndYPx));

        // 30 x 60 pixels of the planes at 0.5 mm.
        Assert.Equal(15, region.WidthMm!.Value, 1e-9);
        Assert.Equal(30, region.HeightMm!.Value, 1e-9);
    }

    [Fact]
    public void Frame_keeps_the_twelve_largest_groups()
    {
        var lone = Enumerable.Range(0, 20).Select(i => (i % 6 * 2, i / 6 * 2)).ToArray();

        Assert.Equal(12, RegionFinder.Frame(Marked(lone), Planes(10 * Side, 10 * Side, 1, null)).Count);
    }

    [Fact]
    public void Frame_of_nothing_is_empty() =>
        Assert.Empty(RegionFinder.Frame(new bool[CellMap.Count], Planes(9, 9, 1, null)));

    private static bool[] Marked(params (int X, int Y)[] cells)
    {
        var marked = new bool[CellMap.Count];
        foreach (var (x, y) in cells)
        {
            marked[(y * Side) + x] = true;
        }

        return marked;
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
