using BenchmarkDotNet.Running;
using CoatScan.Benchmarks;

if (args is ["memory"])
{
    PeakMemory.Print();
    return;
}

BenchmarkSwitcher.FromAssembly(typeof(PhotoBenchmarks).Assembly).Run(args);
