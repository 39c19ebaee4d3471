using System.Text.Json;
using CoatScan.Metrics.Texture;

namespace CoatScan.MetricsTests.Texture;

/// <summary>Against glcm.json: the paper's example (Haralick, Shanmugam and Dinstein, 1973) counted by hand, its features by scikit-image 0.19.3.</summary>
public sealed class CooccurrenceTests
{
    // Column and row steps in the order of the table: 0, down-right, 90, up-right; a pair counted both ways has no direction.
    private static readonly (string Angle, int X, int Y)[] Steps = [("0", 1, 0), ("45", 1, 1), ("90", 0, 1), ("135", -1, 1)];

    private static readonly JsonElement Table = ReferenceData.Read("glcm");

    [Fact]
    public void Add_example_of_the_paper_has_its_counts()
    {
        var example = Table.GetProperty("haralick_4x4");
        foreach (var (angle, x, y) in Steps)
        {
            var pairs = Count(Image("haralick_4x4"), 4, 4, x, y);
            int[][] expected = [.. example.GetProperty("counts").GetProperty(angle).EnumerateArray()
                .Select(row => row.EnumerateArray().Select(count => count.GetInt32()).ToArray())];

            Assert.All(Enumerable.Range(0, 16), i => Assert.Equal(expected[i / 4][i % 4], pairs[i / 4, i % 4]));
        }
    }

    [Theory]
    [InlineData("haralick_4x4", 4)]
    [InlineData("checkerboard_8x8", 2)]
    [InlineData("constant_8x8", 4)]
    [InlineData("vertical_stripes_16x16_width2", 2)]
    [InlineData("sine_32x32_period8_q8", 8)]
    public void Contrast_and_correlation_are_those_of_the_table(string name, int levels)
    {
        var image = Image(name);
        var width = (int)Math.Sqrt(image.Length);
        var expected = Table.GetProperty(name).GetProperty("props");
        var (contrasts, correlations) = (expected.GetProperty("contrast").Doubles(), expected.GetProperty("correlation").Doubles());
        for (var i = 0; i < Steps.Length; i++)
        {
            var pairs = Count(image, width, levels, Steps[i].X, Steps[i].Y);

            Assert.Equal(contrasts[i], pairs.Contrast, 1e-6);
            Assert.Equal(correlations[i], pairs.Correlation, 1e-6);
        }
    }

    // The rules of the table, in words there.
    private static int[] Image(string name) => name switch
    {
        "haralick_4x4" => [.. Table.GetProperty(name).GetProperty("image").EnumerateArray().SelectMany(row => row.Doubles()).Select(level => (int)level)],
        "checkerboard_8x8" => Draw(8, (x, y) => (x + y) % 2),
        "constant_8x8" => Draw(8, (_, _) => 3),
        "vertical_stripes_16x16_width2" => Draw(16, (x, _) => x / 2 % 2),
        _ => Draw(32, (x, _) => (int)Math.Floor(Math.Round(127.5 + (127.5 * Math.Sin(2.0 * Math.PI * x / 8.0))) / 32.0)),
    };

    private static int[] Draw(int side, Func<int, int, int> level) =>
        [.. Enumerable.Range(0, side * side).Select(i => level(i % side, i / side))];

    private static Cooccurrence Count(int[] image, int width, int levels, int x, int y)
    {
        var pairs = new Cooccurrence(levels);
        pairs.Add(image, width, x, y);
        return pairs;
    }
}
