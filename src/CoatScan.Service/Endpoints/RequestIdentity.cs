using System.Security.Cryptography;
using System.Text;
using CoatScan.Findings;
using Google.Protobuf;

namespace CoatScan.Service.Endpoints;

/// <summary>What makes two requests the same one.</summary>
internal static class RequestIdentity
{
    /// <summary>The key of a request with a request id; null without one.</summary>
    /// <exception cref="CoatScanException">FIELD_INVALID: the id is no UUID.</exception>
    public static RequestKey? Of(string requestId, IMessage request)
    {
        if (requestId.Length == 0)
        {
            return null;
        }

        if (!Guid.TryParseExact(requestId, "D", out var id))
        {
            throw new CoatScanException(
                ErrorReason.FieldInvalid,
                "request_id must be a UUID of 36 characters, for example 123e4567-e89b-42d3-a456-426614174000.",
                "request_id");
        }

        // With the type: requests of two kinds may well have the same bytes.
        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        hash.AppendData(Encoding.UTF8.GetBytes(request.Descriptor.FullName));
        hash.AppendData(request.ToByteArray());
        return new RequestKey(id.ToString("D"), Convert.ToHexStringLower(hash.GetHashAndReset()));
    }
}
