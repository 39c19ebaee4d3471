using System.Diagnostics;
using CoatScan.Findings;

namespace CoatScan.DiagnosisTests;

public class CostTests(ITestOutputHelper output)
{
    // The best of many rounds: other work on the machine makes a round longer, never shorter.
    [Fact]
    public void Diagnose_with_explanation_and_tests_takes_at_most_two_milliseconds()
    {
        PanelFacts[] cases = [.. PanelCase.All.Select(c => c.Facts)];
        double best = double.MaxValue;
        for (int round = 0; round < 30; round++)
        {
            long start = Stopwatch.GetTimestamp();
            foreach (PanelFacts facts in cases)
            {
                Known.Diagnostician.Diagnose(facts, null);
            }

            best = Math.Min(best, Stopwatch.GetElapsedTime(start).TotalMilliseconds / cases.Length);
        }

        output.WriteLine($"{best:0.000} ms a case");
        Assert.True(best <= 2, $"{best} ms");
    }

    [Fact]
    public void Diagnose_allocates_the_same_for_every_round()
    {
        PanelFacts[] cases = [.. PanelCase.All.Select(c => c.Facts)];
        long[] allocated = new long[12];
        for (int round = 0; round < allocated.Length; round++)
        {
            long before = GC.GetAllocatedBytesForCurrentThread();
            foreach (PanelFacts facts in cases)
            {
                Known.Diagnostician.Diagnose(facts, null);
            }

            allocated[round] = GC.GetAllocatedBytesForCurrentThread() - before;
        }

        output.WriteLine($"{allocated[^1] / cases.Length / 1024} KiB a case");
        Assert.InRange(allocated[^1], 0.95 * allocated[2], 1.05 * allocated[2]);
    }
}
