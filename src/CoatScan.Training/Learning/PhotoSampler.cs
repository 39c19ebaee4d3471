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

    /// <exception cref="Findings.CoatScanException">The photo is refused.</exception>
    public PhotoFeatures Look(ReadOnlyMemory<byte> photo)
    {
        var planes = _normalizer.Normalize(photo, null, CancellationToken.None).Planes;
        return _extractor.Extract(planes, FeatureVector.Measure(planes), CancellationToken.None);
    }

    public void Dispose() => _extractor.Dispose();
}
