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

    /// <summary>The finding with its notes; not stored yet, so that it does not meet itself.</summary>
    public Task<Finding> NoteAsync(Finding finding, CancellationToken cancellationToken) =>
        NoteAsync(finding, before: null, cancellationToken);

    /// <summary>The same for a finding that follows on another: what that one noted of the same photos still holds, and it is no news
    /// that they were in it.</summary>
    public async Task<Finding> NoteAsync(Finding finding, Finding? before, CancellationToken cancellationToken)
    {
        if (!options.Value.NoteSeenBefore || finding.Photos.Count == 0)
        {
            return finding;
        }

        var photos = new List<PhotoReport>(finding.Photos.Count);
        foreach (var photo in finding.Photos)
        {
            photos.Add(photo with
            {
                SeenBefore = before?.Photos.FirstOrDefault(one => one.Sha256 == photo.Sha256)?.SeenBefore ?? await pictures
                    .FindEarlierAsync(photo, PictureHash.SameDistanceBits, MaximumEarlier, cancellationToken)
                    .ConfigureAwait(false),
            });
        }

        return finding with { Photos = photos };
    }
}
