using CoatScan.Findings;
using CoatScan.Storage.Rows;
using Microsoft.EntityFrameworkCore;

namespace CoatScan.Storage.Photos;

/// <summary>Finds pictures that were seen before, among stored photos and the photos of stored findings of the tenant.</summary>
/// <remarks>Reads every hash of the tenant, from an index that holds nothing else; the cost grows with their number.</remarks>
public sealed class PictureIndex(FindingDatabase database)
{
    private const int MaximumFindings = 20;

    /// <summary>A finding with a note on each photo, in which earlier findings the same picture was.</summary>
    /// <param name="finding">The finding; not stored yet, so that it does not meet itself.</param>
    /// <param name="look">How to look.</param>
    /// <param name="cancellationToken">Stops the search.</param>
    public Task<Finding> NoteEarlierAsync(Finding finding, EarlierLook look, CancellationToken cancellationToken = default) =>
        database.ReadAsync((context, token) => NoteEarlierAsync(context, finding, look, token), cancellationToken);

    /// <summary>As the other one, inside the write that stores the finding: of two that come at once, the second sees the first.</summary>
    internal static async Task<Finding> NoteEarlierAsync(
        FindingContext context, Finding finding, EarlierLook? look, CancellationToken cancellationToken)
    {
        if (look is null || finding.Photos.Count == 0)
        {
            return finding;
        }

        var photos = new List<PhotoReport>(finding.Photos.Count);
        foreach (var photo in finding.Photos)
        {
            var noted = look.Before?.Photos.FirstOrDefault(one => one.Sha256 == photo.Sha256)?.SeenBefore;
            photos.Add(photo with { SeenBefore = noted ?? await FindEarlierAsync(context, photo, look, cancellationToken) });
        }

        return finding with { Photos = photos };
    }

    // Equal bytes first, then the nearest, then the oldest.
    private static async Task<IReadOnlyList<EarlierPicture>> FindEarlierAsync(
        FindingContext context, PhotoReport photo, EarlierLook look, CancellationToken cancellationToken)
    {
        var rows = await FindRowsAsync(context, photo.Sha256, photo.PictureHash, look.MaxDistanceBits, cancellationToken);
        return
        [
            .. rows
                .Select(row => new EarlierPicture(
                    FindingName.Of(row.FindingId),
                    new DateTimeOffset(row.CreateTimeTicks, TimeSpan.Zero),
                    row.Sha256,
                    row.Sha256 == photo.Sha256,
                    DistanceOf(photo.Sha256, photo.PictureHash, row.Sha256, row.PerceptualHash),
                    row.CaptureTime))
                .OrderByDescending(one => one.SameBytes)
                .ThenBy(one => one.DistanceBits)
                .ThenBy(one => one.CreateTime)
                .ThenBy(one => one.Finding, StringComparer.Ordinal)
                .DistinctBy(one => one.Finding)
                .Take(look.MaxFindings),
        ];
    }

    /// <summary>Photos with the same picture as a stored one: the nearest first, then the oldest.</summary>
    /// <param name="photo">The photo.</param>
    /// <param name="maximumDistanceBits">Bits in which hashes may differ.</param>
    /// <param name="count">Most photos to return.</param>
    /// <param name="cancellationToken">Stops the search.</param>
    public Task<IReadOnlyList<SimilarPhoto>> FindSimilarAsync(
        StoredPhoto photo, int maximumDistanceBits, int count, CancellationToken cancellationToken = default)
    {
        ArgumentNullException.ThrowIfNull(photo);
        var hash = photo.Description.PerceptualHash;
        return database.ReadAsync<IReadOnlyList<SimilarPhoto>>(
            async (context, token) =>
            {
                var near = await NearAsync(context.Photos.Select(row => row.PerceptualHash), hash, maximumDistanceBits, token);
                var stored = await context.Photos.AsNoTracking()
                    .Where(row => row.DeleteTimeTicks == null && row.Sha256 != photo.Sha256
                        && near.Contains(row.PerceptualHash))
                    .ToListAsync(token);
                var seen = await FindRowsAsync(context, photo.Sha256, hash, maximumDistanceBits, token);
                return
                [
                    .. stored.Select(row => row.Sha256).Union(seen.Select(row => row.Sha256))
                        .Select(sha256 => Join(
                            photo,
                            stored.Find(row => row.Sha256 == sha256),
                            [.. seen.Where(row => row.Sha256 == sha256).OrderBy(row => row.CreateTimeTicks)]))
                        .OrderBy(one => one.DistanceBits)
                        .ThenBy(one => one.FirstSeenTime)
                        .ThenBy(one => one.Sha256, StringComparer.Ordinal)
                        .Take(count),
                ];
            },
            cancellationToken);
    }

    private static SimilarPhoto Join(StoredPhoto asked, PhotoRow? stored, List<FindingPhotoRow> seen)
    {
        var sha256 = stored?.Sha256 ?? seen[0].Sha256;
        var isSame = sha256 == asked.Sha256;
        var firstTicks = seen.Select(row => row.CreateTimeTicks)
            .Append(isSame ? asked.CreateTime.UtcTicks : stored?.CreateTimeTicks ?? long.MaxValue)
            .Min();
        return new SimilarPhoto(
            sha256,
            isSame || stored is not null,
            [.. seen.Select(row => FindingName.Of(row.FindingId)).Distinct().Take(MaximumFindings)],
            DistanceOf(
                asked.Sha256, asked.Description.PerceptualHash, sha256, stored is null ? seen[0].PerceptualHash : stored.PerceptualHash),
            isSame,
            stored is null ? seen[0].CaptureTime : stored.CaptureTime,
            new DateTimeOffset(firstTicks, TimeSpan.Zero));
    }

    private static async Task<List<FindingPhotoRow>> FindRowsAsync(
        FindingContext context, string sha256, ulong? hash, int maximumDistanceBits, CancellationToken cancellationToken)
    {
        var near = await NearAsync(
            context.FindingPhotos.Select(row => row.PerceptualHash), hash, maximumDistanceBits, cancellationToken);
        return await context.FindingPhotos.AsNoTracking()
            .Where(row => row.Sha256 == sha256 || near.Contains(row.PerceptualHash))
            .ToListAsync(cancellationToken);
    }

    private static async Task<List<long?>> NearAsync(
        IQueryable<long?> hashes, ulong? hash, int maximumDistanceBits, CancellationToken cancellationToken)
    {
        if (hash is null)
        {
            return [];
        }

        var asked = (long)hash.Value;
        return await hashes
            .Where(one => one != null && HashDistance.Bits(one.Value, asked) <= maximumDistanceBits)
            .Distinct()
            .ToListAsync(cancellationToken);
    }

    // Rows come here because the bytes are equal or the hashes are near, and then both hashes are there.
    private static int DistanceOf(string sha256, ulong? hash, string otherSha256, long? otherHash) =>
        sha256 == otherSha256 ? 0 : HashDistance.Bits((long)hash!.Value, otherHash!.Value);
}
