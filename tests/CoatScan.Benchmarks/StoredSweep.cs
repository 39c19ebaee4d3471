using System.Globalization;
using CoatScan.DemoPanels;
using CoatScan.InspectionTests;

namespace CoatScan.Benchmarks;

/// <summary>The comparison of the test of stored photos, over all visual classes and any seeds: how many measurements agree within their half widths.</summary>
internal static class StoredSweep
{
    private const int WorstMetrics = 12;

    /// <summary>Prints the shares by way of storing, and by class and metric for half size.</summary>
    public static void Print(int firstSeed, int seeds)
    {
        var runs = VisualClassIds.All
            .SelectMany(visualClass => Enumerable.Range(firstSeed, seeds).Select(seed => (visualClass, (ulong)seed)))
            .AsParallel().AsOrdered()
            .SelectMany(one => Compare(one.visualClass, one.Item2).Select(run => (Class: one.visualClass, run.Metric, run.Variant, run.Agrees)))
            .ToList();
        foreach (var variant in runs.GroupBy(run => run.Variant))
        {
            Line(variant.Key, variant.Select(run => run.Agrees));
        }

        var half = runs.Where(run => run.Variant == "half").ToList();
        foreach (var byClass in half.GroupBy(run => run.Class))
        {
            Line("half, " + byClass.Key, byClass.Select(run => run.Agrees));
        }

        foreach (var metric in half.GroupBy(run => run.Metric).OrderByDescending(group => group.Count(run => !run.Agrees)).Take(WorstMetrics))
        {
            Line("half, " + metric.Key, metric.Select(run => run.Agrees));
        }
    }

    // Some classes cannot be drawn visibly from some seeds.
    private static List<(string Metric, string Variant, bool Agrees)> Compare(string visualClass, ulong seed)
    {
        try
        {
            return [.. StoredPhotos.Compare(visualClass, seed)];
        }
        catch (InvalidOperationException error)
        {
            Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{visualClass}, seed {seed}: {error.Message}"));
            return [];
        }
    }

    private static void Line(string name, IEnumerable<bool> agree)
    {
        bool[] all = [.. agree];
        Console.WriteLine(string.Create(
            CultureInfo.InvariantCulture, $"{name}: {all.Count(one => one)} of {all.Length}, {100.0 * all.Count(one => one) / all.Length:0.0} %"));
    }
}
