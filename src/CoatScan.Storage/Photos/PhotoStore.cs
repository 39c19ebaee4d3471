using System.Security.Cryptography;
using CoatScan.Findings;
using CoatScan.Storage.Rows;
using Microsoft.EntityFrameworkCore;

namespace CoatScan.Storage.Photos;

/// <summary>Keeps photos: bytes in files named by their digest, what is known about them in the database.</summary>
/// <remarks>
/// <para>A photo is there when its row is there. Bytes are written apart, hashed, synced, renamed, the folder synced, and
/// only then the row is committed; so a process that dies leaves a file that the sweep removes, never a row without bytes.</para>
/// <para>Rename and row, and removal of both, happen under the write lock of the database, which also holds off other
/// processes on the same file and folder.</para>
/// <para>Every method but <see cref="SweepAsync"/> sees the photos of the current tenant only. Equal photos are one photo
/// inside a tenant and never across tenants.</para>
/// <para>Every method throws <see cref="CoatScanException"/> with <see cref="ErrorReason.StorageUnavailable"/> when folder or
/// database do not let it finish. Call <see cref="Prepare"/> once before the others.</para>
/// </remarks>
public sealed class PhotoStore
{
    /// <summary>How long a marked photo can be brought back by sending it again, and its bytes be read by work in progress.</summary>
    public static readonly TimeSpan RemovalDelay = TimeSpan.FromHours(24);

    /// <summary>Half-received files are removed when nobody has written to them for this long; longer than an upload may last.</summary>
    public static readonly TimeSpan HalfReceivedAge = TimeSpan.FromMinutes(15);

    private static readonly TimeSpan StrayAge = TimeSpan.FromHours(1);

    private const int DigestsAtOnce = 500;

    private readonly FindingDatabase _database;
    private readonly PhotoFolder _folder;
    private readonly TimeProvider _time;
    private readonly TimeSpan _retention;

    /// <summary>Opens nothing yet.</summary>
    /// <param name="database">The database that all stores share.</param>
    /// <param name="options">Where photos lie, and how long they are kept.</param>
    /// <param name="time">Clock of retention and removal.</param>
    /// <exception cref="ArgumentException">An option is out of its range.</exception>
    public PhotoStore(FindingDatabase database, StorageOptions options, TimeProvider time)
    {
        ArgumentNullException.ThrowIfNull(database);
        ArgumentNullException.ThrowIfNull(options);
        ArgumentOutOfRangeException.ThrowIfLessThan(options.PhotoRetentionDays, 1);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(options.PhotoRetentionDays, 36_500);
        _database = database;
        _folder = PhotoFolder.Of(options);
        _time = time;
        _retention = TimeSpan.FromDays(options.PhotoRetentionDays);
    }

    /// <summary>Makes the folder and checks that it takes files; at start, and whenever readiness is asked.</summary>
    /// <exception cref="CoatScanException">It does not; the message says why in one sentence.</exception>
    public void Prepare()
    {
        try
        {
            _folder.Probe();
        }
        catch (Exception error) when (IsFolderFailure(error))
        {
            throw new CoatScanException(
                ErrorReason.StorageUnavailable,
                $"The photo folder {_folder.Root} cannot be written.",
                metadata: new Dictionary<string, string> { ["path"] = _folder.Root },
                inner: error);
        }
    }

    /// <summary>Begins to receive a photo; <see cref="KeepAsync"/> stores it.</summary>
    public PhotoDraft Begin() => Guarded(() => new PhotoDraft(_folder.CreateIncoming()));

    /// <summary>Stores what a draft received; durable when the task ends. Equal bytes again renew the photo that is there.</summary>
    /// <param name="draft">The received bytes, complete.</param>
    /// <param name="description">What was found out about them.</param>
    /// <param name="allowance">What the tenant may store; a photo that is there already takes no further room.</param>
    /// <param name="cancellationToken">Stops before the commit.</param>
    /// <exception cref="CoatScanException">QUOTA_EXCEEDED.</exception>
    public async Task<StoredPhoto> KeepAsync(
        PhotoDraft draft,
        PhotoDescription description,
        PhotoAllowance allowance,
        CancellationToken cancellationToken = default)
    {
        ArgumentNullException.ThrowIfNull(draft);
        ArgumentNullException.ThrowIfNull(description);
        ArgumentNullException.ThrowIfNull(allowance);
        Guarded(() =>
        {
            draft.Sync();
            return true;
        });
        var now = _time.GetUtcNow();
        var fresh = new PhotoRow
        {
            Sha256 = draft.Digest(),
            SizeBytes = draft.SizeBytes,
            MediaType = description.MediaType,
            WidthPx = description.WidthPx,
            HeightPx = description.HeightPx,
            DisplayName = description.DisplayName,
            CaptureTime = description.CaptureTime,
            PerceptualHash = (long?)description.PerceptualHash,
            CreateTimeTicks = now.UtcTicks,
            ExpireTimeTicks = (now + _retention).UtcTicks,
        };
        var row = await _database.WriteAsync(
            async (context, token) =>
            {
                // Asked first: a photo that is refused must not leave its file behind.
                var row = await PhotoTable.PutAsync(context, fresh, allowance, now, token);
                Guarded(() =>
                {
                    _folder.Keep(draft.Path, _database.Tenants.Current, fresh.Sha256);
                    draft.Keep();
                    return true;
                });
                return row;
            },
            cancellationToken);
        return PhotoTable.ToPhoto(row);
    }

    /// <summary>Renews the photo with a digest, so that it need not be sent again; null if there is none.</summary>
    public async Task<StoredPhoto?> RenewAsync(string sha256, CancellationToken cancellationToken = default)
    {
        var expireTicks = (_time.GetUtcNow() + _retention).UtcTicks;
        var renewed = await _database.WriteAsync(
            (context, token) => context.Photos
                .Where(row => row.Sha256 == sha256 && row.DeleteTimeTicks == null)
                .ExecuteUpdateAsync(row => row.SetProperty(one => one.ExpireTimeTicks, expireTicks), token),
            cancellationToken);
        return renewed == 0 ? null : await FindAsync(sha256, cancellationToken);
    }

    /// <summary>Stores all bytes of a stream.</summary>
    /// <param name="content">The bytes, read to their end.</param>
    /// <param name="description">What is known about them.</param>
    /// <param name="cancellationToken">Stops before the commit.</param>
    public async Task<StoredPhoto> SaveAsync(
        Stream content, PhotoDescription description, CancellationToken cancellationToken = default)
    {
        ArgumentNullException.ThrowIfNull(content);
        await using var draft = Begin();
        var buffer = new byte[64 * 1024];
        int count;
        while ((count = await content.ReadAsync(buffer, cancellationToken)) > 0)
        {
            await draft.WriteAsync(buffer.AsMemory(0, count), cancellationToken);
        }

        return await KeepAsync(draft, description, PhotoAllowance.Unlimited, cancellationToken);
    }

    /// <summary>The photo with a digest; null if there is none.</summary>
    public async Task<StoredPhoto?> FindAsync(string sha256, CancellationToken cancellationToken = default)
    {
        var row = await _database.ReadAsync(
            (context, token) => PhotoTable.FindAsync(context, sha256, token), cancellationToken);
        return row is null ? null : PhotoTable.ToPhoto(row);
    }

    /// <summary>The photo with a name, <c>photos/{sha256}</c>.</summary>
    /// <param name="name">The name.</param>
    /// <param name="field">Field of the request that holds the name.</param>
    /// <param name="cancellationToken">Stops the read.</param>
    /// <exception cref="CoatScanException">The name is malformed, or there is no such photo.</exception>
    public async Task<StoredPhoto> GetAsync(
        string name, string field = "name", CancellationToken cancellationToken = default) =>
        await FindAsync(PhotoName.DigestOf(name, field), cancellationToken) ?? throw NotFound(name, field);

    /// <summary>The first of some digests that no photo has; null if all are there.</summary>
    public Task<string?> FirstMissingAsync(
        IReadOnlyCollection<string> sha256s, CancellationToken cancellationToken = default) =>
        _database.ReadAsync(
            async (context, token) =>
            {
                var there = new HashSet<string>();
                foreach (var some in sha256s.Distinct().Chunk(DigestsAtOnce))
                {
                    there.UnionWith(await context.Photos
                        .Where(row => some.Contains(row.Sha256) && row.DeleteTimeTicks == null)
                        .Select(row => row.Sha256)
                        .ToListAsync(token));
                }

                return sha256s.FirstOrDefault(one => !there.Contains(one));
            },
            cancellationToken);

    /// <summary>The bytes of a photo, checked against its digest.</summary>
    /// <param name="name">Its name, <c>photos/{sha256}</c>.</param>
    /// <param name="evenIfMarked">Whether a photo marked for removal may be read: for work accepted before the mark.</param>
    /// <param name="cancellationToken">Stops the read.</param>
    /// <exception cref="CoatScanException">The name is malformed, there is no such photo, or its bytes are damaged.</exception>
    public async Task<ReadOnlyMemory<byte>> ReadAsync(
        string name, bool evenIfMarked = false, CancellationToken cancellationToken = default)
    {
        var sha256 = PhotoName.DigestOf(name);
        var isThere = await _database.ReadAsync(
            (context, token) => context.Photos.AnyAsync(
                row => row.Sha256 == sha256 && (evenIfMarked || row.DeleteTimeTicks == null), token),
            cancellationToken);
        if (!isThere)
        {
            throw NotFound(name);
        }

        return Load(sha256);
    }

    /// <summary>The bytes of a photo that <see cref="GetAsync"/> gave: for a worker that takes them when it is free.</summary>
    /// <exception cref="CoatScanException">The bytes are gone or damaged.</exception>
    public ReadOnlyMemory<byte> Load(StoredPhoto photo)
    {
        ArgumentNullException.ThrowIfNull(photo);
        return Load(photo.Sha256);
    }

    private byte[] Load(string sha256)
    {
        var bytes = Guarded(() => File.ReadAllBytes(_folder.PathOf(_database.Tenants.Current.Id, sha256)));
        return Convert.ToHexStringLower(SHA256.HashData(bytes)) == sha256
            ? bytes
            : throw new CoatScanException(
                ErrorReason.StorageUnavailable,
                $"The stored bytes of {PhotoName.Of(sha256)} are damaged; send the photo again.");
    }

    /// <summary>Marks a photo: it is gone for callers at once, and its bytes a day later. Leaves an audit entry.</summary>
    /// <param name="name">Its name, <c>photos/{sha256}</c>.</param>
    /// <param name="cancellationToken">Stops before the commit.</param>
    /// <exception cref="CoatScanException">The name is malformed, or there is no such photo.</exception>
    public async Task DeleteAsync(string name, CancellationToken cancellationToken = default)
    {
        var sha256 = PhotoName.DigestOf(name);
        var ticks = _time.GetUtcNow().UtcTicks;
        var marked = await _database.WriteAsync(
            async (context, token) =>
            {
                var count = await context.Photos
                    .Where(row => row.Sha256 == sha256 && row.DeleteTimeTicks == null)
                    .ExecuteUpdateAsync(row => row.SetProperty(one => one.DeleteTimeTicks, ticks), token);
                await AuditChain.AppendAsync(
                    context,
                    _time.GetUtcNow(),
                    AuditChain.Delete,
                    [name],
                    count == 0 ? AuditChain.NotFound : AuditChain.Done,
                    token);
                await context.SaveChangesAsync(token);
                return count;
            },
            cancellationToken);
        if (marked == 0)
        {
            throw NotFound(name);
        }
    }

    /// <summary>
    /// Housekeeping over all tenants: removes half-received files, marks expired photos, removes photos marked
    /// <see cref="RemovalDelay"/> ago, and files that no row knows.
    /// </summary>
    public async Task<PhotoSweep> SweepAsync(CancellationToken cancellationToken = default)
    {
        var now = _time.GetUtcNow();
        try
        {
            var halfReceived = PhotoSweeper.RemoveIncoming(_folder, now - HalfReceivedAge);
            var expired = await _database.WriteAsync(
                (context, token) => PhotoTable.MarkExpiredAsync(context, now, token), cancellationToken);
            var removed = await PhotoSweeper.RemoveMarkedAsync(_database, _folder, now, RemovalDelay, cancellationToken);
            var stray = await PhotoSweeper.RemoveStrayAsync(_database, _folder, now - StrayAge, cancellationToken);
            return new PhotoSweep(halfReceived, expired, removed, stray);
        }
        catch (Exception error) when (IsFolderFailure(error))
        {
            throw Unavailable(error);
        }
    }

    private static T Guarded<T>(Func<T> work)
    {
        try
        {
            return work();
        }
        catch (Exception error) when (IsFolderFailure(error))
        {
            throw Unavailable(error);
        }
    }

    private static bool IsFolderFailure(Exception error) => error is IOException or UnauthorizedAccessException;

    // Without the path: this message travels to callers.
    private static CoatScanException Unavailable(Exception error) => new(
        ErrorReason.StorageUnavailable, "The photo store does not answer; try again later.", inner: error);

    private static CoatScanException NotFound(string name, string field = "name") => new(
        ErrorReason.PhotoNotFound,
        $"There is no photo {name}.",
        field,
        new Dictionary<string, string> { ["name"] = name });
}
