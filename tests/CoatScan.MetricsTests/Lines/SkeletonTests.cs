using CoatScan.Metrics.Lines;

namespace CoatScan.MetricsTests.Lines;

public sealed class SkeletonTests
{
    [Fact]
    public void Thin_bar_and_plus_match_the_reference_library()
    {
        var tabled = ReferenceData.Read("components");

        // Bar of 5 x 100 and plus of width 3, as the reference describes them.
        var bar = Mask(120, 40, (x, y) => x is >= 10 and < 110 && y is >= 15 and < 20);
        var plus = Mask(101, 101, (x, y) =>
            (x is >= 9 and <= 91 && y is >= 49 and <= 51) || (y is >= 9 and <= 91 && x is >= 49 and <= 51));
        Assert.Equal(tabled.GetProperty("plus_width3").GetProperty("area").GetInt32(), plus.Count(flag => flag));

        // The library removes ends in another order: one pixel an end may differ.
        Skeleton.Thin(bar, 120, 40);
        Skeleton.Thin(plus, 101, 101);

        Assert.Equal(
            tabled.GetProperty("bar_5x100").GetProperty("skeleton_px").GetInt32(), bar.Count(flag => flag), 2.0);
        Assert.Equal(
            tabled.GetProperty("plus_width3").GetProperty("skeleton_px").GetInt32(), plus.Count(flag => flag), 4.0);
        Assert.Equal(4, Ends(plus, 101));
    }

    // The paper's algorithm as it is written: every pixel is looked at in every pass.
    [Fact]
    public void Thin_blobs_go_as_when_every_pixel_is_looked_at_again()
    {
        const int Side = 90;
        var random = new Random(77);
        for (var round = 0; round < 20; round++)
        {
            var discs = Enumerable.Range(0, 25).Select(_ => (X: random.Next(Side), Y: random.Next(Side), R: random.Next(1, 12))).ToList();
            var mask = Mask(Side, Side, (x, y) => discs.Exists(disc =>
                ((x - disc.X) * (x - disc.X)) + ((y - disc.Y) * (y - disc.Y)) <= disc.R * disc.R) ^ (random.Next(200) == 0));
            var plain = (bool[])mask.Clone();

            var left = Skeleton.Thin(mask, Side, Side);
            ThinPlainly(plain, Side);

            Assert.Equal(plain, mask);
            Assert.Equal(Enumerable.Range(0, mask.Length).Where(i => mask[i]), left);
        }
    }

    private static void ThinPlainly(bool[] mask, int side)
    {
        for (var i = 0; i < side; i++)
        {
            mask[i] = mask[(side * side) - 1 - i] = mask[i * side] = mask[(i * side) + side - 1] = false;
        }

        for (var isChanged = true; isChanged;)
        {
            isChanged = false;
            foreach (var isFirst in new[] { true, false })
            {
                var gone = Enumerable.Range(0, mask.Length).Where(i => mask[i] && Goes(mask, side, i, isFirst)).ToList();
                gone.ForEach(i => mask[i] = false);
                isChanged |= gone.Count > 0;
            }
        }
    }

    // P2 to P9 of the paper, clockwise from above.
    private static bool Goes(bool[] mask, int side, int i, bool isFirst)
    {
        bool[] p = [mask[i - side], mask[i - side + 1], mask[i + 1], mask[i + side + 1], mask[i + side], mask[i + side - 1], mask[i - 1], mask[i - side - 1]];
        var (flagged, entries) = (p.Count(flag => flag), Enumerable.Range(0, 8).Count(k => !p[k] && p[(k + 1) % 8]));
        return flagged is >= 2 and <= 6 && entries == 1
            && (isFirst ? !(p[0] && p[2] && p[4]) && !(p[2] && p[4] && p[6]) : !(p[0] && p[2] && p[6]) && !(p[0] && p[4] && p[6]));
    }

    [Fact]
    public void Of_plus_has_four_branches_and_one_junction()
    {
        var plus = Mask(101, 101, (x, y) =>
            (x is >= 9 and <= 91 && y is >= 49 and <= 51) || (y is >= 9 and <= 91 && x is >= 49 and <= 51));
        Skeleton.Thin(plus, 101, 101);
        var graph = LineGraph.Of(plus, 101, 101, 10.0);

        // Arms of 42 px lose up to two pixels at their ends, and 2 % by the weights of a horizontal line.
        Assert.Equal(4, graph.Paths.Count);
        Assert.Equal(4, Assert.Single(graph.Degrees()));
        Assert.All(graph.Paths, path => Assert.Equal(42.0, path.LengthPx, 4.0));
        Assert.Equal((50.0, 50.0), Assert.Single(graph.Nodes));
    }

    // misc.json: steps of y = round(x tan a), x = 0..100, and the corrected lengths.
    [Theory]
    [InlineData("0")]
    [InlineData("15")]
    [InlineData("30")]
    [InlineData("45")]
    public void Of_digital_line_has_the_tabled_length(string angle)
    {
        var tabled = ReferenceData.Read("misc").GetProperty("digital_line_length").GetProperty("cases").GetProperty(angle);
        var slope = Math.Tan(int.Parse(angle, System.Globalization.CultureInfo.InvariantCulture) * Math.PI / 180.0);
        var mask = new bool[110 * 110];
        for (var x = 0; x <= 100; x++)
        {
            mask[(((int)Math.Round(x * slope) + 3) * 110) + x + 3] = true;
        }

        var graph = LineGraph.Of(mask, 110, 110, 10.0);
        var path = Assert.Single(graph.Paths);

        Assert.Equal(tabled.GetProperty("vossepoel").GetDouble(), path.LengthPx, 0.002);
        Assert.Equal(tabled.GetProperty("true").GetDouble(), path.LengthPx, 2.1);
        Assert.Empty(graph.Nodes);
    }

    private static bool[] Mask(int width, int height, Func<int, int, bool> flag)
    {
        var mask = new bool[width * height];
        for (var i = 0; i < mask.Length; i++)
        {
            mask[i] = flag(i % width, i / width);
        }

        return mask;
    }

    private static int Ends(bool[] mask, int width)
    {
        var ends = 0;
        for (var i = 0; i < mask.Length; i++)
        {
            ends += mask[i] && int.PopCount(Skeleton.Neighbors(mask, width, i)) == 1 ? 1 : 0;
        }

        return ends;
    }
}
