namespace CoatScan.DemoPanels.Surface;

public sealed class PanelRandomTests
{
    [Fact]
    public void Next_follows_the_published_sequence()
    {
        // SplitMix64 with seed 1234567: the test vector that circulates with the reference code (from memory).
        var random = new PanelRandom(1234567);

        Assert.Equal(6457827717110365317UL, random.Next());
        Assert.Equal(3203168211198807973UL, random.Next());
        Assert.Equal(9817491932198370423UL, random.Next());
    }

    [Fact]
    public void Fork_does_not_advance_its_parent()
    {
        var forked = new PanelRandom(9);
        _ = forked.Fork(3).Next();

        Assert.Equal(new PanelRandom(9).Next(), forked.Next());
        Assert.NotEqual(new PanelRandom(9).Fork(3).Next(), new PanelRandom(9).Fork(4).Next());
    }

    [Fact]
    public void Gaussian_has_mean_zero_and_variance_one()
    {
        var random = new PanelRandom(1);
        var draws = Enumerable.Range(0, 40_000).Select(_ => (double)random.Gaussian()).ToArray();

        // Standard errors: 1 / 200 for the mean, root(2) / 200 for the variance; four of them.
        Assert.InRange(draws.Average(), -0.02, 0.02);
        Assert.InRange(draws.Average(d => d * d), 0.97, 1.03);
    }

    [Theory]
    [InlineData(1)]
    [InlineData(256)]
    [InlineData(601)]
    public void FillGaussian_draws_what_single_calls_draw(int count)
    {
        var single = new PanelRandom(8);
        var many = new PanelRandom(8);
        var row = new float[count];

        many.FillGaussian(row, 2f);

        Assert.All(row, value => Assert.Equal(2f * single.Gaussian(), value, 1e-4f));
        Assert.Equal(single.Next(), many.Next());
    }

    [Fact]
    public void Weighted_never_returns_an_index_without_weight()
    {
        var random = new PanelRandom(1);

        Assert.All(Enumerable.Range(0, 500), _ => Assert.Equal(1, random.Weighted(0f, 2f, 0f)));
    }
}
