using System.Buffers.Binary;
using System.Buffers.Text;
using System.Security.Cryptography;
using System.Text;
using CoatScan.Findings;

namespace CoatScan.Storage;

/// <summary>The place in the list where the next page starts.</summary>
/// <remarks>
/// A token carries a place and no authority: whoever holds one sees what the list would show anyhow. Its check sum finds
/// a token that was cut or mistyped; it is no signature.
/// </remarks>
/// <param name="Place">Number that the list is sorted by, 0 or more: of findings and batches the create time, UTC, ticks.</param>
/// <param name="Id">Id that decides between equal numbers.</param>
internal readonly record struct PageToken(long Place, string Id)
{
    /// <summary>How long a token is good (AIP-158 suggests about three days).</summary>
    public static readonly TimeSpan Lifetime = TimeSpan.FromDays(3);

    // Clocks of two hosts may differ a little; a token from further ahead was made up.
    private static readonly TimeSpan ClockSkew = TimeSpan.FromMinutes(5);

    private const byte Version = 1;
    private const int IssuedOffset = 1;
    private const int PlaceOffset = IssuedOffset + sizeof(long);
    private const int IdOffset = PlaceOffset + sizeof(long);
    private const int CheckSumLength = 4;

    public string Write(DateTimeOffset now)
    {
        var bytes = new byte[IdOffset + Id.Length + CheckSumLength];
        bytes[0] = Version;
        BinaryPrimitives.WriteInt64BigEndian(bytes.AsSpan(IssuedOffset), now.UtcTicks);
        BinaryPrimitives.WriteInt64BigEndian(bytes.AsSpan(PlaceOffset), Place);
        Encoding.ASCII.GetBytes(Id, bytes.AsSpan(IdOffset));
        CheckSum(bytes.AsSpan(..^CheckSumLength)).CopyTo(bytes.AsSpan(^CheckSumLength..));
        return Base64Url.EncodeToString(bytes);
    }

    /// <exception cref="CoatScanException">The token is malformed or too old.</exception>
    public static PageToken Read(string token, DateTimeOffset now)
    {
        const int longestToken = (IdOffset + FindingName.MaximumIdLength + CheckSumLength) * 4 / 3 + 4;
        var bytes = new byte[longestToken];
        if (token.Length > longestToken
            || !Base64Url.IsValid(token)
            || !Base64Url.TryDecodeFromChars(token, bytes, out var length)
            || length <= IdOffset + CheckSumLength
            || bytes[0] != Version)
        {
            throw Malformed();
        }

        var body = bytes.AsSpan(0, length - CheckSumLength);
        if (!CheckSum(body).SequenceEqual(bytes.AsSpan(body.Length, CheckSumLength)))
        {
            throw Malformed();
        }

        var issued = BinaryPrimitives.ReadInt64BigEndian(body[IssuedOffset..]);
        var place = BinaryPrimitives.ReadInt64BigEndian(body[PlaceOffset..]);
        var id = Encoding.ASCII.GetString(body[IdOffset..]);
        if (issued < 0 || issued > (now + ClockSkew).UtcTicks || place < 0 || !FindingName.IsId(id))
        {
            throw Malformed();
        }

        if (issued < (now - Lifetime).UtcTicks)
        {
            throw new CoatScanException(
                ErrorReason.FieldInvalid,
                $"page_token is older than {Lifetime.Days} days; start again with an empty one.",
                "page_token",
                new Dictionary<string, string> { ["lifetime_days"] = $"{Lifetime.Days}" });
        }

        return new PageToken(place, id);
    }

    private static ReadOnlySpan<byte> CheckSum(ReadOnlySpan<byte> body) => SHA256.HashData(body).AsSpan(0, CheckSumLength);

    public static CoatScanException Malformed() => new(
        ErrorReason.FieldInvalid,
        "page_token is not one that this service gave; start again with an empty one.",
        "page_token");
}
