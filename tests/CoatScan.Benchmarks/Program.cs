using System.Globalization;
using BenchmarkDotNet.Configs;
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

// On one core the projects below take longer to build than the usual two minutes.
BenchmarkSwitcher.FromAssembly(typeof(PhotoBenchmarks).Assembly).Run(args, ManualConfig.Create(DefaultConfig.Instance).WithBuildTimeout(TimeSpan.FromMinutes(10)));
