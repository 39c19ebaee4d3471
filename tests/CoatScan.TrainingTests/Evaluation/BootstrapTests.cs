using CoatScan.Training.Evaluation;

namespace CoatScan.TrainingTests.Evaluation;

public sealed class BootstrapTests
{
    [Fact]
    public void Quantile_of_the_reference_sample_is_the_published_one()
    {
        var robust = ScienceCases.Stats.GetProperty("robust");
        var sorted = robust.GetProperty("v").Doubles().Order().ToArray();

        Assert.Equal(robust.GetProperty("q25_linear").GetDouble(), Bootstrap.Quantile(sorted, 0.25), 1e-9);
        Assert.Equal(robust.GetProperty("q75_linear").GetDouble(), Bootstrap.Quantile(sorted, 0.75), 1e-9);
        Assert.Equal(robust.GetProperty("median").GetDouble(), Bootstrap.Quantile(sorted, 0.5), 1e-9);
    }

    [Fact]
    public void Interval_of_a_share_is_near_the_normal_one()
    {
        // 400 answers, half right: standard error 0.025, so about 0.5 +- 0.049 (normal approximation).
        var groups = Enumerable.Range(0, 400).Select(i => $"{i}").ToArray();

        var interval = Bootstrap.Of(groups, items => items.Count(i => i % 2 == 0) / (double)items.Count);

        Assert.Equal(0.5, interval.Value);
        Assert.InRange(interval.Low, 0.441, 0.461);
        Assert.InRange(interval.High, 0.539, 0.559);
    }

    [Fact]
    public void Interval_repeats() =>
        Assert.Equal(
            Bootstrap.Of(["a", "b", "c", "c"], items => items.Average()),
            Bootstrap.Of(["a", "b", "c", "c"], items => items.Average()));

    [Fact]
    public void Interval_draws_whole_groups()
    {
        // One group: every resample is the whole sample.
        var interval = Bootstrap.Of(["a", "a", "a"], items => items.Sum());

        Assert.Equal(new Interval(3, 3, 3), interval);
    }
}
