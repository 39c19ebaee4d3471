using System.Buffers.Text;
using System.Security.Cryptography;
using System.Text;

namespace CoatScan.Storage.Keys;

/// <summary>The text of an API key: <c>coatscan_{id}_{secret}</c>, so that a search for lost secrets finds it.</summary>
public static class ApiKeySecret
{
    /// <summary>How every key begins, and no other credential.</summary>
    public const string Prefix = "coatscan_";

    /// <summary>Characters of the public part.</summary>
    public const int IdLength = 12;

    private const int SecretBytes = 32;
    private const string IdLetters = "abcdefghijkmnpqrstuvwxyz23456789";

    /// <summary>A fresh key from the machine's source of secrets.</summary>
    internal static (string Id, string Hash, string Text) Make()
    {
        var id = RandomNumberGenerator.GetString(IdLetters, IdLength);
        var secret = Base64Url.EncodeToString(RandomNumberGenerator.GetBytes(SecretBytes));
        return (id, HashOf(secret), $"{Prefix}{id}_{secret}");
    }

    /// <summary>The two parts of a key; null if the text is none.</summary>
    internal static (string Id, string Hash)? Read(string text)
    {
        var rest = text.AsSpan();
        if (!rest.StartsWith(Prefix, StringComparison.Ordinal))
        {
            return null;
        }

        rest = rest[Prefix.Length..];
        return rest.Length > IdLength + 1 && rest[IdLength] == '_'
            ? (rest[..IdLength].ToString(), HashOf(rest[(IdLength + 1)..].ToString()))
            : null;
    }

    /// <summary>Whether two hashes are equal, in a time that does not depend on where they differ.</summary>
    internal static bool Same(string hash, string other) =>
        CryptographicOperations.FixedTimeEquals(Encoding.ASCII.GetBytes(hash), Encoding.ASCII.GetBytes(other));

    private static string HashOf(string secret) => Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(secret)));
}
