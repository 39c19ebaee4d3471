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
