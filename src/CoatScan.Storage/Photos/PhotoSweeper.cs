using Microsoft.EntityFrameworkCore;

namespace CoatScan.Storage.Photos;

/// <summary>Removes what nobody needs any more: half-received files, photos marked long ago, files without a row.</summary>
internal static class PhotoSweeper
{
    private const int BatchSize = 200;

    /// <summary>Removes half-received files that nobody has written to for a while: their sender or their process is gone.</summary>
    public static int RemoveIncoming(PhotoFolder folder, DateTimeOffset before)
    {
        var count = 0;
        foreach (var path in folder.IncomingBefore(before))
        {
            File.Delete(path);
            count++;
        }

        return count;
    }

    /// <summary>Removes photos marked some time ago: row and file in one write, so that none comes back between.</summary>
    public static async Task<int> RemoveMarkedAsync(
        FindingDatabase database,
        PhotoFolder folder,
        DateTimeOffset now,
        TimeSpan delay,
        CancellationToken cancellationToken)
    {
        var total = 0;
        int removed;
        do
        {
            removed = await database.WriteAsync(
                async (context, token) =>
                {
                    var rows = await PhotoTable.ListRemovableAsync(
                        database.Engine, context, now - delay, BatchSize, token);
                    foreach (var row in rows)
                    {
                        // The file first: if the process dies here, the row is still there to try again.
                        folder.Remove(row.Tenant, row.Sha256);
                        await context.Photos.IgnoreQueryFilters()
                            .Where(one => one.Tenant == row.Tenant && one.Sha256 == row.Sha256)
                            .ExecuteDeleteAsync(token);
                    }

                    foreach (var own in rows.GroupBy(row => row.Tenant))
                    {
                        context.Tenant = own.Key;
                        var names = own.Select(row => PhotoName.Of(row.Sha256));
                        await AuditChain.AppendAsync(context, now, AuditChain.Purge, names, AuditChain.Done, token);
                    }

                    await context.SaveChangesAsync(token);
                    return rows.Count;
                },
                cancellationToken);
            total += removed;
        }
        while (removed == BatchSize);

        return total;
    }

    /// <summary>Removes files without a row, older than a time: what a process leaves that dies between name and row.</summary>
    public static async Task<int> RemoveStrayAsync(
        FindingDatabase database, PhotoFolder folder, DateTimeOffset before, CancellationToken cancellationToken)
    {
        var total = 0;
        foreach (var files in folder.PhotosBefore(before).Chunk(BatchSize))
        {
            var digests = files.Select(file => file.Sha256).ToList();
            total += await database.WriteAsync(
                async (context, token) =>
                {
                    var rows = await context.Photos.IgnoreQueryFilters().AsNoTracking()
                        .Where(row => digests.Contains(row.Sha256))
                        .Select(row => new { row.Tenant, row.Sha256 })
                        .ToListAsync(token);
                    var known = rows.Select(row => (PhotoFolder.FolderNameOf(row.Tenant), row.Sha256)).ToHashSet();
                    var stray = files.Where(file => !known.Contains((file.Folder, file.Sha256))).ToList();
                    stray.ForEach(file => File.Delete(file.Path));
                    return stray.Count;
                },
                cancellationToken);
        }

        return total;
    }
}
