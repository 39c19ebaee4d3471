using CoatScan.Service.Hosting;

namespace CoatScan.FunctionalTests.Server;

public sealed class AllocationWatchTests
{
    [Fact]
    public void WorkHasEnded_says_so_at_the_first_quiet_look_after_work()
    {
        var watch = new AllocationWatch();

        bool[] looks = [.. new long[] { 50_000_000, 90_000_000, 90_500_000, 91_000_000, 200_000_000, 200_000_001 }.Select(watch.WorkHasEnded)];

        Assert.Equal([false, false, true, false, false, true], looks);
    }

    [Fact]
    public void WorkHasEnded_says_so_once_more_when_it_stays_quiet()
    {
        var watch = new AllocationWatch();
        watch.WorkHasEnded(50_000_000);

        int[] said = [.. Enumerable.Range(1, 100).Where(_ => watch.WorkHasEnded(50_000_000))];

        Assert.Equal([1, AllocationWatch.SecondQuietLook], said);
    }

    [Fact]
    public void WorkHasEnded_of_a_process_that_only_answers_whether_it_is_well_is_never_true()
    {
        var watch = new AllocationWatch();

        Assert.All(Enumerable.Range(1, 100), look => Assert.False(watch.WorkHasEnded(look * 500_000L)));
    }
}
