using CoatScan.Findings;

namespace CoatScan.DiagnosisTests;

public class CostTests(ITestOutputHelper output)
{
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
