using BenchmarkDotNet.Attributes;
using CoatScan.Classification;
using CoatScan.Diagnosis;
using CoatScan.Findings;
using CoatScan.Imaging;
using CoatScan.Inspection;
using CoatScan.Metrics;

namespace CoatScan.Benchmarks;

/// <summary>One photo of 12 megapixels through each stage and through all of them, on one core.</summary>
[MemoryDiagnoser]
[SimpleJob(launchCount: 1, warmupCount: 3, iterationCount: 10)]
public class PhotoBenchmarks
{
    private readonly PhotoNormalizer _normalizer = new(new GuardedPhotoDecoder(new ImagingOptions()), new ImagingOptions());
    private byte[] _photo = [];
    private NormalizedPhoto _normalized = null!;
    private VisualClassifier _classifier = null!;
    private PanelInspector _inspector = null!;

    /// <summary>Decodes, normalizes, measures and loads what the stages need.</summary>
    [GlobalSetup]
    public void Setup()
    {
        var models = Path.Combine(AppContext.BaseDirectory, "models");
        var knowledge = KnowledgeBase.Load(Path.Combine(models, "knowledge"));
        _classifier = VisualClassifier.Load(Path.Combine(models, "classifier"));
        _inspector = new PanelInspector(
            _normalizer,
            _classifier,
            knowledge,
            new Diagnostician(knowledge),
            new Provenance("benchmark", _classifier.Info.Version, _classifier.Info.Sha256, knowledge.Version, MetricSet.Version),
            new FindingNames(TimeProvider.System),
            TimeProvider.System);
        _photo = LargePhoto.Jpeg(4000, 3000);
        _normalized = _normalizer.Normalize(_photo, null, CancellationToken.None);
    }

    /// <summary>Bytes to planes.</summary>
    [Benchmark]
    public NormalizedPhoto Normalize() => _normalizer.Normalize(_photo, null, CancellationToken.None);

    /// <summary>Planes to measurements.</summary>
    [Benchmark]
    public PanelMeasurements Measure() => PanelMetrics.Measure(_normalized.Planes, CancellationToken.None);

    /// <summary>Planes and measurements to visual classes.</summary>
    [Benchmark]
    public VisualReading Classify() => _classifier.Classify(_normalized.Planes, CancellationToken.None);

    /// <summary>Bytes to finding.</summary>
    [Benchmark(Baseline = true)]
    public Finding Whole() =>
        _inspector.InspectPhotos([new PhotoBytes(_photo, "", "photo")], new PanelFacts(), zones: null, CancellationToken.None);
}
