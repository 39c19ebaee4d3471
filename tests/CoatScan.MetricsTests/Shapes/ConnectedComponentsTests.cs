using CoatScan.Metrics.Shapes;

namespace CoatScan.MetricsTests.Shapes;

public sealed class ConnectedComponentsTests
{
    // Areas of digital disks, computed once with scipy and countable by hand for the small ones.
    [Fact]
    public void Find_disk_has_the_tabled_area()
    {
        var tabled = ReferenceData.Read("components").GetProperty("grid16_r4").GetProperty("disk_area_by_r");
        foreach (var entry in tabled.EnumerateObject())
        {
            var radius = int.Parse(entry.Name, System.Globalization.CultureInfo.InvariantCulture);
            var side = (2 * radius) + 3;
            var set = Find(side, side, (x, y) =>
                Math.Pow(x - radius - 1, 2) + Math.Pow(y - radius - 1, 2) <= radius * radius, Connectivity.Four);

            var disk = Assert.Single(set.Components);
            Assert.Equal(entry.Value.GetInt32(), disk.AreaPx);
            Assert.Equal(radius + 1.0, disk.CenterX, 1e-9);
            Assert.Equal(radius + 1.0, disk.CenterY, 1e-9);
            Assert.Equal((2 * radius) + 1, disk.EndX - disk.StartX);
        }
    }

    [Fact]
    public void Find_diagonal_case_depends_on_the_connectivity()
    {
        var tabled = ReferenceData.Read("components").GetProperty("diag_4x4");
        var image = tabled.GetProperty("image");

        bool Flag(int x, int y) => image[y][x].GetInt32() == 1;

        Assert.Equal(tabled.GetProperty("n_4conn").GetInt32(), Find(4, 4, Flag, Connectivity.Four).Components.Count);
        Assert.Equal(tabled.GetProperty("n_8conn").GetInt32(), Find(4, 4, Flag, Connectivity.Eight).Components.Count);
    }

    [Fact]
    public void Find_craze_grid_has_twenty_five_cells()
    {
        var tabled = ReferenceData.Read("components").GetProperty("craze_grid");

        static bool OnLine(int position) => Math.Abs((position % 32) - 16) <= 1;

        var cells = Find(128, 128, (x, y) => !OnLine(x) && !OnLine(y), Connectivity.Four).Components;
        var lines = Find(128, 128, (x, y) => OnLine(x) || OnLine(y), Connectivity.Four).Components;

        Assert.Equal(tabled.GetProperty("cells_total").GetInt32(), cells.Count);
        Assert.Equal(tabled.GetProperty("line_fraction").GetDouble(), Assert.Single(lines).AreaPx / 16384.0, 1e-6);
        Assert.Equal(9, cells.Count(cell => cell.AreaPx == tabled.GetProperty("inner_cell_px").GetInt32()));
    }

    [Fact]
    public void Axes_ellipse_matches_the_reference()
    {
        var tabled = ReferenceData.Read("components").GetProperty("ellipse_a30_b10");
        var set = Find(71, 31, (x, y) => Math.Pow((x - 35) / 30.0, 2) + Math.Pow((y - 15) / 10.0, 2) <= 1.0, Connectivity.Four);

        var ellipse = Assert.Single(set.Components);
        var (major, minor) = ellipse.Axes();

        Assert.Equal(tabled.GetProperty("area").GetInt32(), ellipse.AreaPx);
        Assert.Equal(tabled.GetProperty("major").GetDouble(), major, 0.1);
        Assert.Equal(tabled.GetProperty("minor").GetDouble(), minor, 0.1);
    }

    [Fact]
    public void Find_spiral_is_one_component()
    {
        // A snake whose rows join at alternating ends: arms that meet late must still be joined.
        var set = Find(9, 9, (x, y) => y % 2 == 0 || x == (y % 4 == 1 ? 8 : 0), Connectivity.Four);

        Assert.Single(set.Components);
        Assert.All(set.Runs, run => Assert.Equal(0, run.Component));
    }

    [Fact]
    public void Find_wrong_number_of_flags_is_refused() =>
        Assert.Throws<ArgumentException>(() => ConnectedComponents.Find(new bool[5], 2, 2, Connectivity.Four));

    private static ComponentSet Find(int width, int height, Func<int, int, bool> flag, Connectivity connectivity)
    {
        var mask = new bool[width * height];
        for (var i = 0; i < mask.Length; i++)
        {
            mask[i] = flag(i % width, i / width);
        }

        return ConnectedComponents.Find(mask, width, height, connectivity);
    }
}
