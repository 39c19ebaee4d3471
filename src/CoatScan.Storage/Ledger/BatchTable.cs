using CoatScan.Batches;
using CoatScan.Findings;
using CoatScan.Storage.Rows;
using Microsoft.EntityFrameworkCore;

namespace CoatScan.Storage.Ledger;

/// <summary>The stored batches.</summary>
internal static class BatchTable
{
    /// <summary>One batch, to be read or changed.</summary>
    /// <exception cref="CoatScanException">BATCH_NOT_FOUND.</exception>
    public static async Task<BatchRow> GetAsync(
        FindingContext context, string id, CancellationToken cancellationToken) =>
        await context.Batches.SingleOrDefaultAsync(row => row.Id == id, cancellationToken)
        ?? throw new CoatScanException(
            ErrorReason.BatchNotFound,
            $"There is no batch batches/{id}.",
            "name",
            new Dictionary<string, string> { ["name"] = $"batches/{id}" });

    public static Task<bool> ExistsAsync(
        FindingContext context, string id, CancellationToken cancellationToken) =>
        context.Batches.AnyAsync(row => row.Id == id, cancellationToken);

    public static BatchRow NewRow(string id, string displayName, DateTimeOffset now) => new()
    {
        Id = id,
        DisplayName = displayName,
        State = BatchState.Open,
        ItemCount = 0,
        GradedCount = 0,
        FailedCount = 0,
        CancelledCount = 0,
        CreateTimeTicks = now.UtcTicks,
        FinishTimeTicks = null,
        LastSequence = 0,
        AnnouncedSequence = 0,
        Version = 1,
        LastClaimTicks = 0,
    };

    public static Batch ToBatch(BatchRow row) => new()
    {
        Id = row.Id,
        DisplayName = row.DisplayName,
        State = row.State,
        ItemCount = row.ItemCount,
        GradedCount = row.GradedCount,
        FailedCount = row.FailedCount,
        CancelledCount = row.CancelledCount,
        CreateTime = ToTime(row.CreateTimeTicks),
        FinishTime = row.FinishTimeTicks is { } ticks ? ToTime(ticks) : null,
        LastSequence = row.LastSequence,
        Version = row.Version,
    };

    public static DateTimeOffset ToTime(long utcTicks) => new(utcTicks, TimeSpan.Zero);

    /// <summary>One page, newest first, by keyset.</summary>
    public static async Task<BatchPage<Batch>> ReadPageAsync(
        FindingContext context,
        int size,
        PageToken? start,
        DateTimeOffset now,
        CancellationToken cancellationToken)
    {
        var rows = context.Batches.AsNoTracking();
        if (start is { } last)
        {
            rows = rows.Where(row => row.CreateTimeTicks <= last.Place
                && (row.CreateTimeTicks < last.Place || string.Compare(row.Id, last.Id) < 0));
        }

        var found = await rows
            .OrderByDescending(row => row.CreateTimeTicks)
            .ThenByDescending(row => row.Id)
            .Take(size + 1)
            .ToListAsync(cancellationToken);
        var page = found.Take(size).ToList();
        var next = found.Count > size ? new PageToken(page[^1].CreateTimeTicks, page[^1].Id).Write(now) : "";
        return new BatchPage<Batch>(page.ConvertAll(ToBatch), next);
    }
}
