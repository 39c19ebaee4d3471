using CoatScan.Metrics.Marks;

namespace CoatScan.MetricsTests.Marks;

public sealed class SpotPatternTests
{
    // Closed forms of endless lattices of unit distance: density 1 (square) and 2 / sqrt 3 (hexagonal).
    [Fact]
    public void RatioOf_lattices_is_the_closed_form()
    {
        var tabled = ReferenceData.Read("clark_evans").GetProperty("clark_evans");
        Assert.Equal(
            tabled.GetProperty("R").GetDouble(), SpotPattern.RatioOf(tabled.GetProperty("mean_nn").GetDouble(), 1.0), 1e-12);
        Assert.Equal(2.1491, SpotPattern.RatioOf(1.0, 2.0 / Math.Sqrt(3.0)), 5e-5);
    }

    // Random points in a frame: the mean ratio is 1 and 95 % of the intervals hold it, for few points and for many.
    [Theory]
    [InlineData(10)]
    [InlineData(50)]
    [InlineData(300)]
    public void Of_random_points_is_one_within_its_half_width(int count)
    {
        const int Sets = 400;
        var random = new Random(count);
        var (mean, held) = (0.0, 0);
        for (var set = 0; set < Sets; set++)
        {
            var places = Enumerable.Range(0, count)
                .Select(_ => (400.0 * random.NextDouble(), 300.0 * random.NextDouble())).ToList();
            var pattern = SpotPattern.Of(places, 400.0, 300.0);
            mean += pattern.Ratio / Sets;
            held += Math.Abs(pattern.Ratio - 1.0) <= pattern.HalfWidth ? 1 : 0;
        }

        Assert.Equal(1.0, mean, 0.02);
        Assert.InRange(held / (double)Sets, 0.92, 0.98);
    }

    [Fact]
    public void Of_lattice_and_clusters_lie_on_either_side()
    {
        var lattice = Enumerable.Range(0, 100).Select(i => (20.0 + (40 * (i % 10)), 20.0 + (40 * (i / 10)))).ToList();
        var even = SpotPattern.Of(lattice, 400.0, 400.0);
        Assert.InRange(even.Ratio, 1.8, 2.0);

        var random = new Random(1);
        var clusters = Enumerable.Range(0, 100)
            .Select(i => (50.0 + (150 * (i % 3)) + (10 * random.NextDouble()), 50.0 + (10 * random.NextDouble()))).ToList();
        var clustered = SpotPattern.Of(clusters, 400.0, 400.0);
        Assert.True(clustered.Ratio + clustered.HalfWidth < 1.0);
    }

    // Any cells: the nearest neighbor is that of plain comparison of all pairs.
    [Fact]
    public void Of_points_agrees_with_all_pairs()
    {
        var random = new Random(9);
        var places = Enumerable.Range(0, 60).Select(_ => (900.0 * random.NextDouble(), 40.0 * random.NextDouble())).ToList();
        var mean = places.Average(one => places.Where(other => other != one).Min(other =>
            Math.Sqrt(Math.Pow(one.Item1 - other.Item1, 2) + Math.Pow(one.Item2 - other.Item2, 2))));
        var expected = (0.5 * Math.Sqrt(36_000.0 / 60.0)) + ((0.0514 + (0.041 / Math.Sqrt(60.0))) * 1880.0 / 60.0);

        Assert.Equal(mean / expected, SpotPattern.Of(places, 900.0, 40.0).Ratio, 1e-9);
    }
}
