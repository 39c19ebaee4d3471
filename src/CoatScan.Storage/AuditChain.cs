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
    public const string Change = "change";
    public const string Call = "call";
    public const string Backup = "backup";
    public const string Restore = "restore";
    public const string Begun = "begun";
    public const string Done = "done";
    public const string NotFound = "not_found";
    public const string Forbidden = "forbidden";

    private static readonly string FirstPreviousHash = new('0', SHA256.HashSizeInBytes * 2);

    /// <summary>Adds one entry a resource, all of the context's tenant. Call inside a write transaction: the sequence relies on
    /// being alone.</summary>
    public static async Task AppendAsync(
        FindingContext context,
        DateTimeOffset now,
        string action,
        IEnumerable<string> resources,
        string outcome,
        CancellationToken cancellationToken)
    {
        var last = LastAdded(context) ?? await context.AuditEntries.AsNoTracking()
            .OrderByDescending(entry => entry.Sequence)
            .FirstOrDefaultAsync(cancellationToken);
        var sequence = last?.Sequence ?? 0;
        var previousHash = last?.Hash ?? FirstPreviousHash;
        var time = now.UtcDateTime.ToString("O", CultureInfo.InvariantCulture);

        foreach (var resource in resources)
        {
            sequence++;
            var hash = HashOf(sequence, [time, action, resource, outcome, previousHash, context.Tenant, context.Actor]);
            context.AuditEntries.Add(new AuditRow
            {
                Sequence = sequence,
                Time = time,
                Action = action,
                Resource = resource,
                Outcome = outcome,
                Tenant = context.Tenant,
                Actor = context.Actor,
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
            if (entry.Sequence != whole + 1 || entry.PreviousHash != previousHash || entry.Hash != HashOf(entry))
            {
                return new AuditVerification(whole, entry.Sequence, previousHash);
            }

            whole++;
            previousHash = entry.Hash;
        }

        return new AuditVerification(whole, null, previousHash);
    }

    // Entries of the same transaction that are not in the table yet.
    private static AuditRow? LastAdded(FindingContext context) =>
        context.ChangeTracker.Entries<AuditRow>().Select(entry => entry.Entity).MaxBy(entry => entry.Sequence);

    private static string HashOf(AuditRow entry)
    {
        string[] first = [entry.Time, entry.Action, entry.Resource, entry.Outcome, entry.PreviousHash];
        return entry.Tenant is null && entry.Actor is null
            ? HashOf(entry.Sequence, first)
            : HashOf(entry.Sequence, [.. first, entry.Tenant ?? "", entry.Actor ?? ""]);
    }

    private static string HashOf(long sequence, ReadOnlySpan<string> texts)
    {
        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        Span<byte> number = stackalloc byte[sizeof(long)];
        BinaryPrimitives.WriteInt64BigEndian(number, sequence);
        hash.AppendData(number);
        foreach (var text in texts)
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
