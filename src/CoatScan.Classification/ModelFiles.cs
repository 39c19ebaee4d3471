using System.Buffers.Binary;
using System.IO.Compression;
using System.Security.Cryptography;
using System.Text;

namespace CoatScan.Classification;

/// <summary>Names and digest of the parts of a trained model.</summary>
internal static class ModelFiles
{
    public const string Photo = "photo-model.zip";

    public const string Network = "panel-network.onnx";

    public const string Calibration = "calibration.json";

    public const string Card = "card.json";

    /// <summary>
    /// SHA-256 over the parts, lower-case hexadecimal. Two saves of one model differ in their zip time stamps, so the
    /// digest is taken over the sorted entries: name, length, bytes.
    /// </summary>
    public static string Digest(string folder)
    {
        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        using var zip = ZipFile.OpenRead(Path.Combine(folder, Photo));
        foreach (var entry in zip.Entries.OrderBy(entry => entry.FullName, StringComparer.Ordinal))
        {
            using var stream = entry.Open();
            using var bytes = new MemoryStream();
            stream.CopyTo(bytes);
            Append(hash, $"{Photo}/{entry.FullName.Replace('\\', '/')}", bytes.GetBuffer().AsSpan(0, (int)bytes.Length));
        }

        Append(hash, Calibration, File.ReadAllBytes(Path.Combine(folder, Calibration)));
        return Convert.ToHexStringLower(hash.GetHashAndReset());
    }

    /// <summary>SHA-256 of one file, lower-case hexadecimal.</summary>
    public static string FileDigest(string path)
    {
        using var stream = File.OpenRead(path);
        return Convert.ToHexStringLower(SHA256.HashData(stream));
    }

    private static void Append(IncrementalHash hash, string name, ReadOnlySpan<byte> bytes)
    {
        Span<byte> length = stackalloc byte[8];
        BinaryPrimitives.WriteInt64LittleEndian(length, bytes.Length);
        hash.AppendData(Encoding.UTF8.GetBytes(name));
        hash.AppendData(length);
        hash.AppendData(bytes);
    }
}
