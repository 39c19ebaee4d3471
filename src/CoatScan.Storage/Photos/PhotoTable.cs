using CoatScan.Findings;
using CoatScan.Storage.Engines;
using CoatScan.Storage.Rows;
using Microsoft.EntityFrameworkCore;

namespace CoatScan.Storage.Photos;

/// <summary>The rows of stored photos.</summary>
internal static class PhotoTable
{
    /// <summary>The row of a photo of the current tenant; null if there is none or it is marked for removal.</summary>
    public static Task<PhotoRow?> FindAsync(FindingContext context, string sha256, CancellationToken cancellationToken) =>
        context.Photos.AsNoTracking()
            .SingleOrDefaultAsync(row => row.Sha256 == sha256 && row.DeleteTimeTicks == null, cancellationToken);

    /// <summary>Adds the row of a photo, or renews the one that is there: same bytes, same photo.</summary>
    public static async Task<PhotoRow> PutAsync(
        FindingContext context,
        PhotoRow fresh,
        PhotoAllowance allowance,
        DateTimeOffset now,
        CancellationToken cancellationToken)
    {
        var row = await context.Photos.SingleOrDefaultAsync(one => one.Sha256 == fresh.Sha256, cancellationToken);
        if (row is null or { DeleteTimeTicks: not null })
        {
            await AuditChain.AppendAsync(
                context, now, AuditChain.Create, [PhotoName.Of(fresh.Sha256)], AuditChain.Done, cancellationToken);
        }

        if (row is null)
        {
            if (!allowance.IsUnlimited)
            {
                await CheckRoomAsync(context, allowance, fresh.SizeBytes, cancellationToken);
            }

            context.Photos.Add(fresh);
            row = fresh;
        }
        else
        {
            row.DeleteTimeTicks = null;
            row.ExpireTimeTicks = fresh.ExpireTimeTicks;
            if (fresh.DisplayName.Length > 0)
            {
                row.DisplayName = fresh.DisplayName;
            }
        }

        await context.SaveChangesAsync(cancellationToken);
        return row;
    }

    /// <summary>Marks the photos of every tenant whose retention ended.</summary>
    public static Task<int> MarkExpiredAsync(FindingContext context, DateTimeOffset now, CancellationToken cancellationToken)
    {
        var ticks = now.UtcTicks;
        return context.Photos.IgnoreQueryFilters()
            .Where(row => row.ExpireTimeTicks <= ticks && row.DeleteTimeTicks == null)
            .ExecuteUpdateAsync(row => row.SetProperty(one => one.DeleteTimeTicks, ticks), cancellationToken);
    }

    /// <summary>Photos of every tenant that were marked before a time and that no work needs, oldest mark first.</summary>
    /// <remarks>
    /// Findings do not need the bytes of their photos; items of batches that wait or run do. The names in them are read once
    /// for all photos, not once a photo.
    /// </remarks>
    public static Task<List<PhotoRow>> ListRemovableAsync(
        IDatabaseEngine engine, FindingContext context, DateTimeOffset time, int count, CancellationToken cancellationToken) =>
        context.Photos
            .FromSql(engine.RemovablePhotosSql(time.UtcTicks))
            .IgnoreQueryFilters().AsNoTracking()
            .OrderBy(row => row.DeleteTimeTicks)
            .Take(count)
            .ToListAsync(cancellationToken);

    /// <summary>Refuses a further photo of the current tenant that would go over what it may store.</summary>
    /// <remarks>Photos that are marked count until their bytes are gone, so that nobody fills the disk with deleted ones.</remarks>
    /// <exception cref="CoatScanException">QUOTA_EXCEEDED.</exception>
    public static async Task CheckRoomAsync(
        FindingContext context, PhotoAllowance allowance, long sizeBytes, CancellationToken cancellationToken)
    {
        var stored = await context.Photos.GroupBy(_ => 1)
            .Select(all => new { Count = all.LongCount(), Bytes = all.Sum(row => row.SizeBytes) })
            .SingleOrDefaultAsync(cancellationToken);
        allowance.Check((stored?.Count ?? 0) + 1, (stored?.Bytes ?? 0) + sizeBytes);
    }

    public static StoredPhoto ToPhoto(PhotoRow row) => new(
        row.Sha256,
        row.SizeBytes,
        new PhotoDescription(row.MediaType, row.WidthPx, row.HeightPx)
        {
            DisplayName = row.DisplayName,
            CaptureTime = row.CaptureTime,
            PerceptualHash = (ulong?)row.PerceptualHash,
        },
        new DateTimeOffset(row.CreateTimeTicks, TimeSpan.Zero),
        new DateTimeOffset(row.ExpireTimeTicks, TimeSpan.Zero));
}
