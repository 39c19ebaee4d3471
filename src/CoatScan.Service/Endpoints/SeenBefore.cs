using CoatScan.Findings;
using CoatScan.Metrics.Quality;
using CoatScan.Service.Options;
using CoatScan.Storage.Photos;
using Microsoft.Extensions.Options;

namespace CoatScan.Service.Endpoints;

/// <summary>Notes on the photos of a finding in which earlier findings the same picture was.</summary>
internal sealed class SeenBefore(PictureIndex pictures, IOptions<PhotoOptions> options)
{
    private const int MaximumEarlier = 5;

    /// <summary>How whoever stores a finding looks for earlier ones; null to note none.</summary>
    public EarlierLook? Look { get; } =
        options.Value.NoteSeenBefore ? new(PictureHash.SameDistanceBits, MaximumEarlier) : null;

    /// <summary>The same for a finding that follows on another.</summary>
    public EarlierLook? LookAfter(Finding? before) => before is null || Look is null ? Look : Look with { Before = before };

    /// <summary>A finding with its notes that is not stored.</summary>
    public Task<Finding> NoteAsync(Finding finding, CancellationToken cancellationToken) =>
        Look is null ? Task.FromResult(finding) : pictures.NoteEarlierAsync(finding, Look, cancellationToken);
}
