using CoatScan.Classification;
using CoatScan.Imaging;
using CoatScan.Metrics;

namespace CoatScan.Training.Learning;

/// <summary>Photo bytes to features by the very path of the product.</summary>
internal sealed class PhotoSampler(string networkPath) : IDisposable
{
    private readonly PhotoNormalizer _normalizer =
        new(new GuardedPhotoDecoder(new ImagingOptions()), new ImagingOptions());

    private readonly FeatureExtractor _extractor = new(networkPath);

    /// <param name="photo">The file's bytes.</param>
    /// <param name="measure">Whether to take the measurements too; without, there are none.</param>
    /// <exception cref="Findings.CoatScanException">The photo is refused.</exception>
    public (PhotoFeatures Features, float[] Measured) Look(ReadOnlyMemory<byte> photo, bool measure)
    {
        using var normalized = _normalizer.Normalize(photo, null, CancellationToken.None);
        if (!measure)
        {
            return (_extractor.Extract(normalized.Planes, CancellationToken.None), []);
        }

        var measurements = PanelMetrics.Measure(normalized.Planes, normalized.Capture, CancellationToken.None);
        return (_extractor.Extract(normalized.Planes, CancellationToken.None), MeasuredValues.Of(measurements));
    }

    public void Dispose() => _extractor.Dispose();
}
