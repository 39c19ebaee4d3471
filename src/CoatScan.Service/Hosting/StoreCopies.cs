using CoatScan.Findings;
using CoatScan.Storage;
using CoatScan.Storage.Backup;

namespace CoatScan.Service.Hosting;

/// <summary>Copies the store of a service, and makes one from a copy; see <see cref="StoreBackup"/>.</summary>
public static class StoreCopies
{
    /// <summary>Copies the store in a data folder, which a service may use meanwhile.</summary>
    /// <param name="dataFolder">Folder of the database.</param>
    /// <param name="photoFolder">Folder of the photos; null for the one in the data folder.</param>
    /// <param name="target">Folder for the copy; it must not exist, or be empty.</param>
    /// <param name="cancellationToken">Stops the copy.</param>
    /// <exception cref="CoatScanException">The message says why in one sentence.</exception>
    public static StoreCopy Backup(
        string dataFolder, string? photoFolder, string target, CancellationToken cancellationToken) =>
        CopyOf(StoreBackup.Write(OptionsOf(dataFolder, photoFolder), target, cancellationToken));

    /// <summary>Makes a store in a data folder from a copy.</summary>
    /// <param name="source">Folder of the copy.</param>
    /// <param name="dataFolder">Folder for the database; there must be none in it.</param>
    /// <param name="photoFolder">Folder for the photos; null for the one in the data folder.</param>
    /// <param name="cancellationToken">Stops the copy.</param>
    /// <exception cref="CoatScanException">The message says why in one sentence.</exception>
    public static StoreCopy Restore(
        string source, string dataFolder, string? photoFolder, CancellationToken cancellationToken) =>
        CopyOf(StoreBackup.Restore(source, OptionsOf(dataFolder, photoFolder), cancellationToken));

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
