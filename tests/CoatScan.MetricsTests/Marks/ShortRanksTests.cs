using CoatScan.Metrics.Marks;

namespace CoatScan.MetricsTests.Marks;

public sealed class ShortRanksTests
{
    // Sorting is the definition; whole numbers of few values make ties, and one list follows another in the same memory.
    [Fact]
    public void At_every_rank_is_what_sorting_puts_there()
    {
        var random = new Random(71);
        var ranks = new ShortRanks(72);
        for (var round = 0; round < 200; round++)
        {
            var values = new float[random.Next(1, 73)];
            for (var i = 0; i < values.Length; i++)
            {
                values[i] = round % 2 == 0 ? random.Next(-4, 5) : (random.NextSingle() * 200.0f) - 100.0f;
            }

            ranks.Rank(values);

            var sorted = values.Order().ToArray();
            Assert.Equal(sorted, Enumerable.Range(0, sorted.Length).Select(ranks.At));
        }
    }

    [Fact]
    public void Rank_longer_than_the_capacity_is_refused() =>
        Assert.Throws<ArgumentException>(() => new ShortRanks(8).Rank(new float[100]));
}
