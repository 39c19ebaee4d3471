using System.Security.Cryptography;
using System.Text;
using CoatScan.Findings;

namespace CoatScan.Storage.Photos;

/// <summary>The files: one folder a tenant, one file a photo, named by its digest; half-received ones apart.</summary>
/// <remarks>
/// Nothing that a caller wrote is part of a path: a folder is named by the hash of its tenant's id, a file by the digest
/// of its bytes. Files are readable by the user of the service only and have no execute bit.
/// </remarks>
internal sealed class PhotoFolder(string root)
{
    private const string IncomingName = "incoming";
    private const UnixFileMode OwnFile = UnixFileMode.UserRead | UnixFileMode.UserWrite;
    private const UnixFileMode OwnFolder = OwnFile | UnixFileMode.UserExecute;

    /// <summary>Full path of the folder.</summary>
    public string Root { get; } = Path.GetFullPath(root);

    private string Incoming => Path.Combine(Root, IncomingName);

    /// <summary>The folder that the options say.</summary>
    public static PhotoFolder Of(StorageOptions options) => new(options.PhotoPath.Length > 0
        ? options.PhotoPath
        : Path.Combine(Path.GetDirectoryName(Path.GetFullPath(options.Path))!, "photos"));

    /// <summary>Makes the folders and writes a file, so that a folder that takes none is found before the first photo.</summary>
    public void Probe()
    {
        MakeFolder(Root);
        MakeFolder(Incoming);
        using var probe = CreateIncoming();
        probe.Dispose();
        File.Delete(probe.Name);
    }

    /// <summary>A new file for bytes that are still coming.</summary>
    public FileStream CreateIncoming()
    {
        var options = new FileStreamOptions
        {
            Mode = FileMode.CreateNew,
            Access = FileAccess.ReadWrite,
            Options = FileOptions.Asynchronous,
            BufferSize = 0,
        };
        if (!OperatingSystem.IsWindows())
        {
            options.UnixCreateMode = OwnFile;
        }

        return new FileStream(Path.Combine(Incoming, Path.GetRandomFileName()), options);
    }

    /// <summary>Gives a synced file its final name, and syncs that too.</summary>
    public void Keep(string incomingPath, Tenant tenant, string sha256)
    {
        var folder = FolderOf(tenant.Id);
        if (!Directory.Exists(folder))
        {
            MakeFolder(folder);
            DiskSync.SyncFolder(Root);
        }

        File.Move(incomingPath, Path.Combine(folder, sha256), overwrite: true);
        DiskSync.SyncFolder(folder);
    }

    /// <summary>Writes a photo and syncs it: for a copy that nobody reads before it is whole.</summary>
    public void Write(ReadOnlySpan<byte> bytes, Tenant tenant, string sha256)
    {
        MakeFolder(Root);
        MakeFolder(Incoming);
        using var file = CreateIncoming();
        file.Write(bytes);
        file.Flush(flushToDisk: true);
        Keep(file.Name, tenant, sha256);
    }

    /// <summary>Removes the file of a photo, if it is there.</summary>
    public void Remove(string tenantId, string sha256)
    {
        var path = PathOf(tenantId, sha256);
        if (File.Exists(path))
        {
            File.Delete(path);
        }
    }

    public string PathOf(string tenantId, string sha256) => Path.Combine(FolderOf(tenantId), sha256);

    /// <summary>Half-received files that nobody has written to since a time.</summary>
    public IEnumerable<string> IncomingBefore(DateTimeOffset time) => FilesBefore(Incoming, time);

    /// <summary>Photos of every folder that were written before a time: folder name, digest, path.</summary>
    public IEnumerable<(string Folder, string Sha256, string Path)> PhotosBefore(DateTimeOffset time) =>
        Directory.EnumerateDirectories(Root)
            .Where(folder => Path.GetFileName(folder) != IncomingName)
            .SelectMany(folder => FilesBefore(folder, time)
                .Where(path => PhotoName.IsDigest(Path.GetFileName(path)))
                .Select(path => (Path.GetFileName(folder), Path.GetFileName(path), path)));

    /// <summary>Name of the folder of a tenant.</summary>
    public static string FolderNameOf(string tenantId) =>
        Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(tenantId)).AsSpan(0, 16));

    private string FolderOf(string tenantId) => Path.Combine(Root, FolderNameOf(tenantId));

    private static IEnumerable<string> FilesBefore(string folder, DateTimeOffset time) => Directory.Exists(folder)
        ? Directory.EnumerateFiles(folder).Where(path => File.GetLastWriteTimeUtc(path) < time.UtcDateTime)
        : [];

    private static void MakeFolder(string path)
    {
        if (OperatingSystem.IsWindows())
        {
            Directory.CreateDirectory(path);
        }
        else
        {
            Directory.CreateDirectory(path, OwnFolder);
        }
    }
}
