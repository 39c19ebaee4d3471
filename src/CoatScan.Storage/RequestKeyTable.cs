using CoatScan.Findings;
using Microsoft.EntityFrameworkCore;

namespace CoatScan.Storage;

/// <summary>Which requests were answered, and by which finding.</summary>
internal static class RequestKeyTable
{
    private const int MaximumLength = 128;

    /// <exception cref="ArgumentException">The id or the hash is empty or too long.</exception>
    public static void Check(RequestKey key)
    {
        ArgumentException.ThrowIfNullOrEmpty(key.RequestId);
        ArgumentException.ThrowIfNullOrEmpty(key.RequestHash);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(key.RequestId.Length, MaximumLength);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(key.RequestHash.Length, MaximumLength);
    }

    /// <summary>Inserts the key, before any look: the unique key of the table decides between two that come at once.</summary>
    /// <returns>False when the key is there already.</returns>
    public static async Task<bool> ClaimAsync(
        FindingContext context, RequestKey key, string findingId, DateTimeOffset now, CancellationToken cancellationToken)
    {
        await ForgetOldAsync(context, now, cancellationToken);
        var inserted = await context.Database.ExecuteSqlAsync(
            $"""
            INSERT INTO request_keys (tenant, request_id, request_hash, finding_id, create_time_ticks)
            VALUES ({context.Tenant}, {key.RequestId}, {key.RequestHash}, {findingId}, {now.UtcTicks})
            ON CONFLICT (tenant, request_id) DO NOTHING
            """,
            cancellationToken);
        return inserted == 1;
    }

    /// <summary>The id of the finding that answered the request; null if the request is not known.</summary>
    /// <exception cref="CoatScanException">The id was used for another request.</exception>
    public static async Task<string?> FindAsync(
        FindingContext context, RequestKey key, DateTimeOffset now, CancellationToken cancellationToken)
    {
        var oldestTicks = OldestTicks(now);
        var stored = await context.RequestKeys.AsNoTracking().SingleOrDefaultAsync(
            row => row.RequestId == key.RequestId && row.CreateTimeTicks >= oldestTicks, cancellationToken);
        if (stored is null || stored.RequestHash == key.RequestHash)
        {
            return stored?.FindingId;
        }

        var windowHours = $"{FindingStore.ReplayWindow.TotalHours}";
        throw new CoatScanException(
            ErrorReason.RequestIdReused,
            $"request_id was used for another request within {windowHours} hours; take a new one.",
            "request_id",
            new Dictionary<string, string> { ["window_hours"] = windowHours });
    }

    public static Task<int> ForgetOldAsync(
        FindingContext context, DateTimeOffset now, CancellationToken cancellationToken)
    {
        var oldestTicks = OldestTicks(now);
        return context.RequestKeys.IgnoreQueryFilters().Where(row => row.CreateTimeTicks < oldestTicks).ExecuteDeleteAsync(cancellationToken);
    }

    public static Task<int> ForgetFindingsAsync(
        FindingContext context, IReadOnlyList<string> findingIds, CancellationToken cancellationToken) =>
        context.RequestKeys.Where(row => findingIds.Contains(row.FindingId)).ExecuteDeleteAsync(cancellationToken);

    private static long OldestTicks(DateTimeOffset now) => (now - FindingStore.ReplayWindow).UtcTicks;
}
