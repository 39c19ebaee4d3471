using System.Security.Cryptography;
using CoatScan.Findings;
using CoatScan.Storage.Photos;
using Microsoft.Data.Sqlite;

namespace CoatScan.Storage.Backup;

/// <summary>Copies a store, database and photos, into a folder, while services use it; and makes a store from such a folder.</summary>
/// <remarks>
/// The database is copied first, as of one moment (SQLite's online backup). Photos follow, by the rows of the copy: their
/// files never change, and a removed one stays a day, so that each row finds its file. A folder gets its name when it is
/// whole; a copy that was cut short leaves one that ends in <c>.partial</c>.
/// </remarks>
public static class StoreBackup
{
    private const string PartialSuffix = ".partial";
    private const string PhotoFolderName = "photos";

    /// <summary>Copies a store into a folder.</summary>
    /// <param name="options">The store.</param>
    /// <param name="folder">The folder; it must not exist, or be empty.</param>
    /// <param name="cancellationToken">Stops the copy.</param>
    /// <exception cref="CoatScanException">There is no store, or a folder cannot be used; the message says why.</exception>
    public static BackupSummary Write(StorageOptions options, string folder, CancellationToken cancellationToken = default)
    {
        ArgumentNullException.ThrowIfNull(options);
        ArgumentException.ThrowIfNullOrEmpty(folder);
        var database = Path.GetFullPath(options.Path);
        var target = Path.TrimEndingDirectorySeparator(Path.GetFullPath(folder));
        RequireStore(database);
        RequireEmpty(target);
        return Guarded(target, () =>
        {
            var partial = target + PartialSuffix;
            if (Directory.Exists(partial))
            {
                Directory.Delete(partial, recursive: true);
            }

            Directory.CreateDirectory(partial);
            var copy = Path.Combine(partial, Path.GetFileName(database));
            CopyDatabase(database, copy);
            var photos = CopyPhotos(
                copy, PhotoFolder.Of(options), new PhotoFolder(Path.Combine(partial, PhotoFolderName)), cancellationToken);
            SyncFile(copy);
            DiskSync.SyncFolder(partial);
            if (Directory.Exists(target))
            {
                Directory.Delete(target);
            }

            Directory.Move(partial, target);
            DiskSync.SyncFolder(Path.GetDirectoryName(target)!);
            return photos;
        });
    }

    /// <summary>Makes a store from a folder that <see cref="Write"/> made.</summary>
    /// <param name="folder">The folder.</param>
    /// <param name="options">The store to make; there must be none.</param>
    /// <param name="cancellationToken">Stops the copy.</param>
    /// <exception cref="CoatScanException">The folder holds no whole copy, or there is a store; the message says why.</exception>
    public static BackupSummary Restore(string folder, StorageOptions options, CancellationToken cancellationToken = default)
    {
        ArgumentNullException.ThrowIfNull(options);
        ArgumentException.ThrowIfNullOrEmpty(folder);
        var database = Path.GetFullPath(options.Path);
        var source = Path.GetFullPath(folder);
        var copy = Path.Combine(source, Path.GetFileName(database));
        RequireStore(copy);
        var photos = PhotoFolder.Of(options);
        if (File.Exists(database))
        {
            throw Refused($"There is a store {database} already; restore into an empty folder.", database);
        }

        RequireEmpty(photos.Root);
        return Guarded(database, () =>
        {
            Directory.CreateDirectory(Path.GetDirectoryName(database)!);
            var partial = database + PartialSuffix;
            File.Delete(partial);
            CopyDatabase(copy, partial);
            RequireWhole(partial, copy);
            var summary = CopyPhotos(
                partial, new PhotoFolder(Path.Combine(source, PhotoFolderName)), photos, cancellationToken);
            SyncFile(partial);

            // Last, so that a service which starts meanwhile finds either no store or a whole one.
            File.Move(partial, database);
            DiskSync.SyncFolder(Path.GetDirectoryName(database)!);
            return summary;
        });
    }

    private static void CopyDatabase(string from, string to)
    {
        using var source = Open(from, SqliteOpenMode.ReadWrite);
        using var target = Open(to, SqliteOpenMode.ReadWriteCreate);
        source.BackupDatabase(target);

        // One file, without a log beside it: that can be copied and moved by anybody.
        Execute(target, "PRAGMA journal_mode = DELETE");
    }

    private static BackupSummary CopyPhotos(
        string database, PhotoFolder from, PhotoFolder to, CancellationToken cancellationToken)
    {
        using var connection = Open(database, SqliteOpenMode.ReadWrite);
        var findings = Convert.ToInt64(Execute(connection, "SELECT count(*) FROM findings"), null);
        if (Execute(connection, "SELECT name FROM sqlite_master WHERE name = 'photos'") is null)
        {
            // A store of before there were photos.
            return new BackupSummary(findings, 0, 0, []);
        }

        var count = 0L;
        var bytes = 0L;
        var damaged = new List<string>();
        foreach (var photo in ReadPhotos(connection))
        {
            cancellationToken.ThrowIfCancellationRequested();
            var path = from.PathOf(photo.Tenant, photo.Sha256);
            var content = File.Exists(path) ? File.ReadAllBytes(path) : [];
            if (Convert.ToHexStringLower(SHA256.HashData(content)) == photo.Sha256)
            {
                to.Write(content, new Tenant(photo.Tenant), photo.Sha256);
                count++;
                bytes += content.Length;
            }
            else if (!photo.IsMarked)
            {
                damaged.Add(PhotoName.Of(photo.Sha256));
            }
        }

        return new BackupSummary(findings, count, bytes, damaged);
    }

    private static List<(string Tenant, string Sha256, bool IsMarked)> ReadPhotos(SqliteConnection connection)
    {
        using var command = connection.CreateCommand();
        command.CommandText = "SELECT tenant, sha256, delete_time_ticks IS NOT NULL FROM photos ORDER BY tenant, sha256";
        using var reader = command.ExecuteReader();
        var photos = new List<(string, string, bool)>();
        while (reader.Read())
        {
            photos.Add((reader.GetString(0), reader.GetString(1), reader.GetBoolean(2)));
        }

        return photos;
    }

    private static void RequireStore(string database)
    {
        if (!File.Exists(database))
        {
            throw Refused($"There is no store {database}.", database);
        }
    }

    private static void RequireEmpty(string folder)
    {
        if (File.Exists(folder) || (Directory.Exists(folder) && Directory.EnumerateFileSystemEntries(folder).Any()))
        {
            throw Refused($"{folder} is not empty.", folder);
        }
    }

    private static void RequireWhole(string database, string copy)
    {
        using var connection = Open(database, SqliteOpenMode.ReadWrite);
        if (Execute(connection, "PRAGMA integrity_check") is not "ok")
        {
            throw Refused($"The copy {copy} is damaged.", copy);
        }
    }

    private static SqliteConnection Open(string path, SqliteOpenMode mode)
    {
        var connection = new SqliteConnection(new SqliteConnectionStringBuilder
        {
            DataSource = path,
            Mode = mode,
            Pooling = false,
        }.ConnectionString);
        connection.Open();
        return connection;
    }

    private static object? Execute(SqliteConnection connection, string sql)
    {
        using var command = connection.CreateCommand();
        command.CommandText = sql;
        return command.ExecuteScalar();
    }

    private static void SyncFile(string path)
    {
        using var file = new FileStream(path, FileMode.Open, FileAccess.ReadWrite);
        file.Flush(flushToDisk: true);
    }

    private static T Guarded<T>(string path, Func<T> work)
    {
        try
        {
            return work();
        }
        catch (Exception error) when (error is IOException or UnauthorizedAccessException or SqliteException)
        {
            throw Refused($"The copy to {path} failed: {error.Message}", path, error);
        }
    }

    private static CoatScanException Refused(string message, string path, Exception? inner = null) => new(
        ErrorReason.StorageUnavailable,
        message,
        metadata: new Dictionary<string, string> { ["path"] = path },
        inner: inner);
}
