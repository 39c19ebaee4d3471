using CoatScan.Findings;
using CoatScan.Storage;
using CoatScan.Storage.Backup;

namespace CoatScan.Service.Hosting;

/// <summary>Copies the store of a service, and makes one from a copy; see <see cref="StoreBackup"/>.</summary>
public static class StoreCopies
{
    private const string Operator = "operator";

    /// <summary>Copies the store in a data folder, which a service may use meanwhile.</summary>
    /// <remarks>The audit log says so, before and after. A store of an earlier version is copied as it is, without an entry: a copy from before an
    /// upgrade must not begin with the upgrade.</remarks>
    /// <param name="dataFolder">Folder of the database.</param>
    /// <param name="photoFolder">Folder of the photos; null for the one in the data folder.</param>
    /// <param name="target">Folder for the copy; it must not exist, or be empty.</param>
    /// <param name="cancellationToken">Stops the copy.</param>
    /// <exception cref="CoatScanException">The message says why in one sentence.</exception>
    public static async Task<StoreCopy> BackupAsync(
        string dataFolder, string? photoFolder, string target, CancellationToken cancellationToken)
    {
        var options = OptionsOf(dataFolder, photoFolder);
        await NoteAsync(options, (audit, token) => audit.BackupBegunAsync(token), cancellationToken).ConfigureAwait(false);
        var copy = await Task.Run(() => StoreBackup.Write(options, target, cancellationToken), cancellationToken).ConfigureAwait(false);
        await NoteAsync(options, (audit, token) => audit.BackupDoneAsync(token), CancellationToken.None).ConfigureAwait(false);
        return CopyOf(copy);
    }

    /// <summary>Makes a store in a data folder from a copy.</summary>
    /// <param name="source">Folder of the copy.</param>
    /// <param name="dataFolder">Folder for the database; there must be none in it.</param>
    /// <param name="photoFolder">Folder for the photos; null for the one in the data folder.</param>
    /// <param name="cancellationToken">Stops the copy.</param>
    /// <exception cref="CoatScanException">The message says why in one sentence.</exception>
    public static async Task<StoreCopy> RestoreAsync(
        string source, string dataFolder, string? photoFolder, CancellationToken cancellationToken)
    {
        var options = OptionsOf(dataFolder, photoFolder);
        var copy = await Task.Run(() => StoreBackup.Restore(source, options, cancellationToken), cancellationToken).ConfigureAwait(false);
        await NoteAsync(options, (audit, token) => audit.RestoredAsync(token), CancellationToken.None).ConfigureAwait(false);
        return CopyOf(copy);
    }

    private static async Task NoteAsync(
        StorageOptions options, Func<AuditLog, CancellationToken, Task> note, CancellationToken cancellationToken)
    {
        // Opening would make a store where there is none; the copy says that better.
        if (!File.Exists(options.Path))
        {
            return;
        }

        var tenants = new TenantContext();
        using var database = new FindingDatabase(options, tenants);
        using var acting = tenants.Enter(Tenant.Local, Operator);
        var audit = new AuditLog(database, TimeProvider.System);
        if (await audit.CanAppendAsync(cancellationToken).ConfigureAwait(false))
        {
            await note(audit, cancellationToken).ConfigureAwait(false);
        }
    }

    private static StorageOptions OptionsOf(string dataFolder, string? photoFolder)
    {
        var options = StoreLocation.Of(dataFolder);
        options.PhotoPath = photoFolder ?? options.PhotoPath;
        return options.PostgresConnection.Length == 0
            ? options
            : throw new CoatScanException(
                ErrorReason.StorageUnavailable,
                "The store is in PostgreSQL: copy and restore it with pg_dump and pg_restore, and the photo folder after it.");
    }

    private static StoreCopy CopyOf(BackupSummary summary) =>
        new(summary.FindingCount, summary.PhotoCount, summary.PhotoBytes, summary.DamagedPhotos);
}
