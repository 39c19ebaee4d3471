using CoatScan.Metrics.Lines;
using CoatScan.Metrics.Shapes;

namespace CoatScan.MetricsTests.Lines;

public sealed class LineCellsTests
{
    // components.json: lines of 3 px at 16, 48, 80, 112 both ways in 128 x 128.
    [Fact]
    public void Count_craze_grid_gives_its_inner_cells_and_Euler_number()
    {
        var tabled = ReferenceData.Read("components").GetProperty("craze_grid");
        var mask = new bool[128 * 128];
        for (var i = 0; i < mask.Length; i++)
        {
            mask[i] = Math.Abs((i % 128 % 32) - 16) <= 1 || Math.Abs((i / 128 % 32) - 16) <= 1;
        }

        var cells = LineCells.Count(mask, 128, 128, widenPx: 0, leastAreaPx: 1);

        Assert.Equal(tabled.GetProperty("line_fraction").GetDouble(), mask.Count(flag => flag) / (128.0 * 128.0), 5e-7);
        Assert.Equal(tabled.GetProperty("cells_not_touching_border").GetInt32(), cells);
        var lines = ConnectedComponents.Find(mask, 128, 128, Connectivity.Eight).Components.Count;
        Assert.Equal(tabled.GetProperty("euler").GetInt32(), lines - cells);
        Assert.Equal(0, LineCells.Count(mask, 128, 128, 0, tabled.GetProperty("inner_cell_px").GetInt32() + 1));
    }

    // components.json: figure of diagonal neighbors, Euler number over corners 3 with 3 parts: no hole.
    [Fact]
    public void Count_diagonal_case_has_no_cell()
    {
        var tabled = ReferenceData.Read("components").GetProperty("diag_4x4");
        bool[] mask = [.. tabled.GetProperty("image").EnumerateArray().SelectMany(row => row.Doubles()).Select(value => value > 0.0)];

        var parts = ConnectedComponents.Find(mask, 4, 4, Connectivity.Eight).Components.Count;

        Assert.Equal(tabled.GetProperty("euler_8").GetInt32(), parts - LineCells.Count(mask, 4, 4, 0, 1));
    }

    [Fact]
    public void Count_gap_of_four_pixels_is_closed_by_widening_two()
    {
        var mask = new bool[60 * 60];
        for (var i = 10; i < 50; i++)
        {
            (mask[(10 * 60) + i], mask[(49 * 60) + i], mask[(i * 60) + 10], mask[(i * 60) + 49]) = (true, true, true, true);
        }

        mask.AsSpan((10 * 60) + 28, 4).Clear();

        Assert.Equal(0, LineCells.Count(mask, 60, 60, 0, 36));
        Assert.Equal(1, LineCells.Count(mask, 60, 60, 2, 36));
    }
}
