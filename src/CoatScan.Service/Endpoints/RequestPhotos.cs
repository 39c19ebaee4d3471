using CoatScan.Findings;
using CoatScan.Inspection;
using CoatScan.Service.Mapping;
using CoatScan.Service.Options;
using CoatScan.Storage.Photos;
using Microsoft.Extensions.Options;
using Wire = CoatScan.V1;

namespace CoatScan.Service.Endpoints;

/// <summary>The photos of a request, whether it carries their bytes or names them.</summary>
/// <remarks>Bytes of a named photo are read by the worker that looks at it, so that waiting requests hold none.</remarks>
internal sealed class RequestPhotos(PhotoStore store, IOptions<AnalysisOptions> limits)
{
    /// <summary>One photo.</summary>
    /// <exception cref="CoatScanException">FIELD_INVALID, PHOTO_NOT_FOUND, PHOTO_TOO_LARGE, DIGEST_MISMATCH.</exception>
    public async Task<PhotoBytes> OpenAsync(Wire.PhotoInput? photo, string field, CancellationToken cancellationToken)
    {
        if (photo is null || photo.Photo.Length == 0)
        {
            return RequestMapping.ToPhoto(photo, field, limits.Value);
        }

        RequestMapping.CheckNamed(photo, field);
        var stored = await store.GetAsync(photo.Photo, $"{field}.photo", cancellationToken).ConfigureAwait(false);
        RequestMapping.CheckDigest(photo.Sha256, stored.Sha256, stored.SizeBytes, field);
        var displayName = photo.DisplayName.Length > 0 ? photo.DisplayName : stored.Description.DisplayName;
        return PhotoBytes.ReadLater(() => store.Load(stored), displayName, field) with { Megapixels = stored.Description.Megapixels };
    }

    /// <summary>The photos of one panel.</summary>
    /// <exception cref="CoatScanException">PHOTO_COUNT_OUT_OF_RANGE, and as for one photo.</exception>
    public async Task<IReadOnlyList<PhotoBytes>> OpenAsync(
        IReadOnlyList<Wire.PhotoInput> photos, CancellationToken cancellationToken)
    {
        RequestMapping.CheckPanel(photos, limits.Value);
        var opened = new List<PhotoBytes>(photos.Count);
        for (var i = 0; i < photos.Count; i++)
        {
            opened.Add(await OpenAsync(photos[i], $"photos[{i}]", cancellationToken).ConfigureAwait(false));
        }

        return opened;
    }
}
