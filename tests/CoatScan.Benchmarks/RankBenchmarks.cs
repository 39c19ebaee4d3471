using BenchmarkDotNet.Attributes;
using CoatScan.Diagnosis;
using CoatScan.Findings;

namespace CoatScan.Benchmarks;

/// <summary>One diagnosis without a photo, with explanation, next tests and remedy: decided, and open.</summary>
[MemoryDiagnoser]
[SimpleJob(launchCount: 1, warmupCount: 3, iterationCount: 10)]
public class RankBenchmarks
{
    private static readonly PanelFacts ChalkingFacts = new()
    {
        Evidence =
        [
            "form.uniform_change", "relief.flat", "gloss.low", "color.dusty_own_color", "test.cloth_rub.powder",
        ],
        Readings = new() { FilmUm = [118, 125, 110], Gloss60 = 22 },
    };

    private static readonly PanelFacts SpotFacts = new()
    {
        Evidence = ["form.round_spots", "size.1_to_5_mm", "location.upper_faces"],
    };

    private Diagnostician _diagnostician = null!;

    /// <summary>Loads the knowledge.</summary>
    [GlobalSetup]
    public void Setup() => _diagnostician = new Diagnostician(
        KnowledgeBase.Load(Path.Combine(AppContext.BaseDirectory, "models", "knowledge")));

    /// <summary>Chalking, decided by a test.</summary>
    [Benchmark]
    public object Decided() => _diagnostician.Diagnose(ChalkingFacts, null);

    /// <summary>Spots of which many kinds are open: most tests to weigh.</summary>
    [Benchmark]
    public object Open() => _diagnostician.Diagnose(SpotFacts, null);
}
