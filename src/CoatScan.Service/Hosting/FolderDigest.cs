using System.Buffers.Binary;
using System.Security.Cryptography;
using System.Text;

namespace CoatScan.Service.Hosting;

/// <summary>One digest for all files of a folder: the version of the knowledge base is written by hand, this is not.</summary>
internal static class FolderDigest
{
    /// <summary>SHA-256 over name and content of every file, lower-case hex; the order of the folder does not matter.</summary>
    public static string Of(string folder)
    {
        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        Span<byte> length = stackalloc byte[sizeof(long)];
        var files = Directory.GetFiles(folder, "*", SearchOption.AllDirectories)
            .Select(path => (Path: path, Name: Path.GetRelativePath(folder, path).Replace('\\', '/')))
            .OrderBy(file => file.Name, StringComparer.Ordinal);
        foreach (var (path, name) in files)
        {
            foreach (var part in (ReadOnlySpan<byte[]>)[Encoding.UTF8.GetBytes(name), File.ReadAllBytes(path)])
            {
                // The length goes first, so that moving a byte from one file to the next changes the digest.
                BinaryPrimitives.WriteInt64BigEndian(length, part.Length);
                hash.AppendData(length);
                hash.AppendData(part);
            }
        }

        return Convert.ToHexStringLower(hash.GetHashAndReset());
    }
}
