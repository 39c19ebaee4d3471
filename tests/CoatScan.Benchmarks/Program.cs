using BenchmarkDotNet.Running;
using CoatScan.Benchmarks;

BenchmarkSwitcher.FromAssembly(typeof(PhotoBenchmarks).Assembly).Run(args);
