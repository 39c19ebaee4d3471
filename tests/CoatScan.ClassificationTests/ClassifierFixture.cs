using CoatScan.Classification;
using CoatScan.DemoPanels;
using CoatScan.Imaging;
using CoatScan.Metrics;

[assembly: AssemblyFixture(typeof(CoatScan.ClassificationTests.ClassifierFixture))]

namespace CoatScan.ClassificationTests;

/// <summary>The shipped classifier, and rendered photos by the way of the product.</summary>
public sealed class ClassifierFixture : IDisposable
{
    private readonly PhotoNormalizer _normalizer = new(new GuardedPhotoDecoder(new ImagingOptions()), new ImagingOptions());

    public VisualClassifier Classifier { get; } = VisualClassifier.Load();

    public static string ModelFolderPath { get; } = Path.Combine(AppContext.BaseDirectory, "models", "classifier");

    public static DemoPanel Render(string visualClass, ulong seed) =>
        DemoPanelRenderer.Render(visualClass, seed, new DemoPanelOptions { WidthPx = 640, HeightPx = 480 });

    public PanelPlanes Look(DemoPanel panel) => _normalizer.Normalize(panel.EncodeJpeg(90), null, CancellationToken.None).Planes;

    public VisualReading Classify(DemoPanel panel) => Classifier.Classify(Look(panel), CancellationToken.None);

    public void Dispose() => Classifier.Dispose();
}
