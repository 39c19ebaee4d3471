using System.Text.Json;
using CoatScan.Metrics.Texture;

namespace CoatScan.MetricsTests.Texture;

/// <summary>Against lbp.json: computed with scikit-image 0.19.3; 58 uniform patterns of 256 as in Ojala, Pietikainen and Maenpaa, 2002.</summary>
public sealed class LocalBinaryPatternTests
{
    private static readonly JsonElement Table = ReferenceData.Read("lbp");

    [Fact]
    public void At_and_uniform_give_the_codes_of_the_table()
    {
        var image = Rows("image");
        var plane = Pattern.Draw(8, 8, (x, y) => image[y][x]);
        var (patterns, uniform) = (Rows("default"), Rows("uniform"));
        for (var y = 1; y < 7; y++)
        {
            for (var x = 1; x < 7; x++)
            {
                var pattern = LocalBinaryPattern.At(plane, x, y);

                Assert.Equal(patterns[y - 1][x - 1], pattern);
                Assert.Equal(uniform[y - 1][x - 1], LocalBinaryPattern.Uniform(pattern));
            }
        }
    }

    [Fact]
    public void Uniform_has_the_published_number_of_patterns_and_codes()
    {
        var facts = Table.GetProperty("facts");
        byte[] all = [.. Enumerable.Range(0, 256).Select(i => (byte)i)];

        Assert.Equal(facts.GetProperty("uniform_patterns_P8").GetInt32(), all.Count(LocalBinaryPattern.IsUniform));
        Assert.Equal(facts.GetProperty("uniform_codes_P8_rotinv").GetInt32(), all.Select(LocalBinaryPattern.Uniform).Distinct().Count());
        Assert.Equal([8], Codes(Pattern.Draw(8, 8, (_, _) => 3)));
        Assert.Equal([0, 8], Codes(Pattern.Draw(8, 8, (x, y) => (x + y) % 2)));
    }

    private static int[] Codes(CoatScan.Metrics.Plane plane) =>
        [.. Enumerable.Range(0, 36).Select(i => LocalBinaryPattern.Uniform(LocalBinaryPattern.At(plane, 1 + (i % 6), 1 + (i / 6)))).Distinct().Order()];

    private static int[][] Rows(string name) =>
        [.. Table.GetProperty(name).EnumerateArray().Select(row => row.EnumerateArray().Select(value => value.GetInt32()).ToArray())];
}
