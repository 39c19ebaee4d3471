using System.Globalization;
using BenchmarkDotNet.Running;
using CoatScan.Benchmarks;

if (args is ["memory"])
{
    PeakMemory.Print();
    return;
}

if (args is ["stored", var first, var count])
{
    StoredSweep.Print(int.Parse(first, CultureInfo.InvariantCulture), int.Parse(count, CultureInfo.InvariantCulture));
    return;
}

BenchmarkSwitcher.FromAssembly(typeof(PhotoBenchmarks).Assembly).Run(args);
