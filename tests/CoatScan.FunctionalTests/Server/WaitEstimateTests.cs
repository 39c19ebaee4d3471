using CoatScan.Service.Endpoints;

namespace CoatScan.FunctionalTests.Server;

public sealed class WaitEstimateTests
{
    [Theory]
    [InlineData(1, 200, 250)]
    [InlineData(1_000, 1_000, 1_250)]
    [InlineData(8_000, 8_000, 10_000)]
    [InlineData(600_000, 8_000, 10_000)]
    public void RetryDelay_is_the_wait_within_its_bounds_and_spread(int waitMs, int low, int high)
    {
        var estimate = new WaitEstimate(new Random(5));
        estimate.Waited(TimeSpan.FromMilliseconds(waitMs));

        var delays = Enumerable.Range(0, 100).Select(_ => estimate.RetryDelay().TotalMilliseconds).ToList();

        Assert.All(delays, delay => Assert.InRange(delay, low, high));
        Assert.True(delays.Distinct().Count() > 90, "Callers who were refused together come back together.");
    }

    [Fact]
    public void RetryDelay_without_waits_is_what_calls_take_and_without_any_the_shortest()
    {
        var estimate = new WaitEstimate(new Random(5));
        var nothing = estimate.RetryDelay();
        estimate.Served(TimeSpan.FromSeconds(2));

        Assert.InRange(nothing.TotalMilliseconds, 200, 250);
        Assert.InRange(estimate.RetryDelay().TotalMilliseconds, 2_000, 2_500);
    }

    [Fact]
    public void RetryDelay_moves_with_the_waits_of_late()
    {
        var estimate = new WaitEstimate(new Random(5));
        estimate.Waited(TimeSpan.FromSeconds(1));
        for (var i = 0; i < 30; i++)
        {
            estimate.Waited(TimeSpan.FromSeconds(4));
        }

        // 1 s weighs 0.87 to the power of 30, 1.5 %.
        Assert.InRange(estimate.RetryDelay().TotalMilliseconds, 3_900, 5_000);
    }

    [Fact]
    public void QuickestService_forgets_a_quick_call_after_sixteen_others()
    {
        var estimate = new WaitEstimate(new Random(5));
        Assert.Equal(TimeSpan.Zero, estimate.QuickestService);
        estimate.Served(TimeSpan.FromMilliseconds(50));
        for (var i = 0; i < 15; i++)
        {
            estimate.Served(TimeSpan.FromMilliseconds(300 + i));
        }

        Assert.Equal(50, estimate.QuickestService.TotalMilliseconds);
        estimate.Served(TimeSpan.FromMilliseconds(400));
        Assert.Equal(300, estimate.QuickestService.TotalMilliseconds);
    }
}
