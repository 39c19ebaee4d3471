using CoatScan.Metrics;
using CoatScan.Metrics.Marks;

namespace CoatScan.MetricsTests.Marks;

public sealed class FastenerRowsTests
{
    private const int Side = 1000;

    // A row along an arc, as rivets follow a panel's edge, among spots at random.
    [Theory]
    [InlineData(8, false)]
    [InlineData(8, true)]
    [InlineData(20, false)]
    public void Split_row_among_spots_sets_apart_the_row_only(int length, bool misses)
    {
        var row = Enumerable.Range(0, length).Where(i => !misses || i != 4)
            .Select(i => At(60 + (45 * i), 300 + (0.5 * i * i), 12 + (i % 2))).ToList();
        var spots = AtRandom(40, seed: 3);

        var (faults, fasteners) = FastenerRows.Split([.. row, .. spots], Side * Side);

        Assert.Equal(row, fasteners);
        Assert.Equal(spots, faults);
    }

    [Theory]
    [InlineData(4, 12.0, 20.0)] // too few
    [InlineData(8, 5.0, 20.0)] // too small to be sure of
    [InlineData(8, 12.0, 4.0)] // too faint to be sure of
    public void Split_what_is_no_clear_row_sets_nothing_apart(int length, double diameterPx, double contrast)
    {
        var row = Enumerable.Range(0, length).Select(i => At(60 + (45 * i), 300, diameterPx, contrast)).ToList();

        Assert.Empty(FastenerRows.Split(row, Side * Side).Fasteners);
    }

    [Fact]
    public void Split_unequal_spacing_size_or_sign_sets_nothing_apart()
    {
        double[] places = [60, 130, 160, 250, 270, 380, 400, 520];
        List<Mark>[] rows =
        [
            [.. places.Select(x => At(x, 300, 12))],
            [.. Enumerable.Range(0, 8).Select(i => At(60 + (90 * i), 300, i % 2 == 0 ? 12 : 24))],
            [.. Enumerable.Range(0, 8).Select(i => At(60 + (90 * i), 300, 12, i % 4 < 2 ? 20 : -20))],
        ];

        Assert.All(rows, row => Assert.Empty(FastenerRows.Split(row, Side * Side).Fasteners));
    }

    // A lattice is a pattern of spots, as of water that dried in beads; every mark lies in two rows.
    [Fact]
    public void Split_lattice_stays()
    {
        var marks = Enumerable.Range(0, 49).Select(i => At(100 + (80 * (i % 7)), 100 + (80 * (i / 7)), 12)).ToList();

        Assert.Empty(FastenerRows.Split(marks, Side * Side).Fasteners);
    }

    // 300 equal marks at random have rows by chance, which must not count: none in at least 39 of 40.
    [Fact]
    public void Split_equal_marks_at_random_stay()
    {
        var panels = Enumerable.Range(0, 40).Count(seed => FastenerRows.Split(AtRandom(300, seed), Side * Side).Fasteners.Count > 0);

        Assert.InRange(panels, 0, 1);
    }

    private static List<Mark> AtRandom(int count, int seed)
    {
        var random = new Random(seed);
        return [.. Enumerable.Range(0, count).Select(_ => At(20 + (960 * random.NextDouble()), 20 + (960 * random.NextDouble()), 12))];
    }

    private static Mark At(double x, double y, double diameterPx, double contrast = 20.0)
    {
        var (left, top, area) = ((int)(x - (diameterPx / 2)), (int)(y - (diameterPx / 2)), (int)Math.Round(Math.PI * diameterPx * diameterPx / 4));
        return new(left, top, left + (int)diameterPx + 1, top + (int)diameterPx + 1, x, y, area, contrast, IsRing: false);
    }
}
