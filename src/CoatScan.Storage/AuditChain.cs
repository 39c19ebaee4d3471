using System.Buffers.Binary;
using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using CoatScan.Storage.Rows;
using Microsoft.EntityFrameworkCore;

namespace CoatScan.Storage;

/// <summary>The audit log: each entry carries the hash of the one before it.</summary>
internal static class AuditChain
{
    public const string Create = "create";
    public const string Delete = "delete";
    public const string Purge = "purge";
    public const string Done = "done";
    public const string NotFound = "not_found";

    private static readonly string FirstPreviousHash = new('0', SHA256.HashSizeInBytes * 2);

    /// <summary>Adds one entry a resource. Call inside a write transaction: the sequence relies on being alone.</summary>
    public static async Task AppendAsync(
        FindingContext context,
        DateTimeOffset now,
        string action,
        IEnumerable<string> resources,
        string outcome,
        CancellationToken cancellationToken)
    {
        var last = await context.AuditEntries.AsNoTracking()
            .OrderByDescending(entry => entry.Sequence)
            .Select(entry => new { entry.Sequence, entry.Hash })
            .FirstOrDefaultAsync(cancellationToken);
        var sequence = last?.Sequence ?? 0;
        var previousHash = last?.Hash ?? FirstPreviousHash;
        var time = now.UtcDateTime.ToString("O", CultureInfo.InvariantCulture);

        foreach (var resource in resources)
        {
            sequence++;
            var hash = HashOf(sequence, time, action, resource, outcome, previousHash);
            context.AuditEntries.Add(new AuditRow
            {
                Sequence = sequence,
                Time = time,
                Action = action,
                Resource = resource,
                Outcome = outcome,
                PreviousHash = previousHash,
                Hash = hash,
            });
            previousHash = hash;
        }
    }

    /// <summary>Walks the log from its first entry to the first that does not fit.</summary>
    public static async Task<AuditVerification> VerifyAsync(FindingContext context, CancellationToken cancellationToken)
    {
        var whole = 0L;
        var previousHash = FirstPreviousHash;
        var entries = context.AuditEntries.AsNoTracking().OrderBy(entry => entry.Sequence).AsAsyncEnumerable();
        await foreach (var entry in entries.WithCancellation(cancellationToken))
        {
            var hash = HashOf(
                entry.Sequence, entry.Time, entry.Action, entry.Resource, entry.Outcome, entry.PreviousHash);
            if (entry.Sequence != whole + 1 || entry.PreviousHash != previousHash || entry.Hash != hash)
            {
                return new AuditVerification(whole, entry.Sequence, previousHash);
            }

            whole++;
            previousHash = hash;
        }

        return new AuditVerification(whole, null, previousHash);
    }

    private static string HashOf(
        long sequence, string time, string action, string resource, string outcome, string previousHash)
    {
        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        Span<byte> number = stackalloc byte[sizeof(long)];
        BinaryPrimitives.WriteInt64BigEndian(number, sequence);
        hash.AppendData(number);
        foreach (var text in (ReadOnlySpan<string>)[time, action, resource, outcome, previousHash])
        {
            // The length goes first, so that moving a letter from one field to the next changes the hash.
            var bytes = Encoding.UTF8.GetBytes(text);
            BinaryPrimitives.WriteInt64BigEndian(number, bytes.Length);
            hash.AppendData(number);
            hash.AppendData(bytes);
        }

        return Convert.ToHexStringLower(hash.GetHashAndReset());
    }
}
