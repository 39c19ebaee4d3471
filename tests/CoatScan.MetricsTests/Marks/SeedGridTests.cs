using CoatScan.Metrics.Marks;

namespace CoatScan.MetricsTests.Marks;

public sealed class SeedGridTests
{
    // Looking at all is the definition.
    [Theory]
    [InlineData(1.0)]
    [InlineData(3.0)]
    public void Near_holds_each_seed_within_the_radii_once(double multiple)
    {
        var random = new Random(73);
        var grid = new SeedGrid(500, 400);
        var seeds = Enumerable.Range(0, 300).Select(_ => Seed(random)).ToList();
        for (var i = 0; i < seeds.Count; i++)
        {
            grid.Add(i, seeds[i]);
        }

        var found = new List<int>();
        for (var round = 0; round < 200; round++)
        {
            var seed = Seed(random);
            grid.Near(seed, multiple, found);

            Assert.Equal(found.Count, found.Distinct().Count());
            Assert.DoesNotContain(
                Enumerable.Range(0, seeds.Count),
                i => seeds[i].DistanceTo(seed.X, seed.Y) < multiple * (seeds[i].RadiusPx + seed.RadiusPx) && !found.Contains(i));
        }
    }

    [Fact]
    public void Add_index_out_of_turn_is_refused() =>
        Assert.Throws<ArgumentOutOfRangeException>(() => new SeedGrid(100, 100).Add(1, new(5, 5, 3.0f, 2.0f)));

    private static SpotSeed Seed(Random random) =>
        new(random.Next(500), random.Next(400), 1.0f + (40.0f * random.NextSingle() * random.NextSingle()), 2.0f);
}
