using System.Globalization;
using CoatScan.Batches;
using CoatScan.Findings;
using CoatScan.Storage.Rows;
using Microsoft.EntityFrameworkCore;

namespace CoatScan.Storage.Ledger;

/// <summary>What a caller does to a batch as a whole, and how it comes to rest.</summary>
internal static class BatchControl
{
    /// <exception cref="CoatScanException">ETAG_MISMATCH.</exception>
    public static void CheckVersion(BatchRow batch, long? expected)
    {
        if (expected is { } version && version != batch.Version)
        {
            throw new CoatScanException(
                ErrorReason.EtagMismatch,
                "The batch has changed since it was read; read it again.",
                "etag",
                new Dictionary<string, string> { ["name"] = $"batches/{batch.Id}" });
        }
    }

    /// <exception cref="CoatScanException">BATCH_NOT_OPEN.</exception>
    public static void CheckOpen(BatchRow batch)
    {
        if (batch.State != BatchState.Open)
        {
            throw NotIn(ErrorReason.BatchNotOpen, batch, "is not open any more");
        }
    }

    /// <exception cref="CoatScanException">BATCH_NOT_OPEN.</exception>
    public static void Start(FindingContext context, BatchRow batch, DateTimeOffset now)
    {
        if (batch.State is BatchState.Running or BatchState.Succeeded)
        {
            return;
        }

        CheckOpen(batch);
        batch.State = BatchState.Running;
        Settle(batch, now);
        EventTable.Append(context, batch);
    }

    public static async Task CancelAsync(
        FindingContext context, BatchRow batch, DateTimeOffset now, CancellationToken cancellationToken)
    {
        if (batch.State is BatchState.Succeeded or BatchState.Cancelled)
        {
            return;
        }

        batch.State = BatchState.Cancelled;
        batch.CancelledCount += await context.BatchItems
            .Where(row => row.Batch == batch.Id && row.State == ItemState.Queued)
            .ExecuteUpdateAsync(row => row.SetProperty(item => item.State, ItemState.Cancelled), cancellationToken);
        Settle(batch, now);
        EventTable.Append(context, batch);
    }

    /// <exception cref="CoatScanException">BATCH_NOT_AT_REST.</exception>
    public static async Task RetryAsync(FindingContext context, BatchRow batch, CancellationToken cancellationToken)
    {
        if (batch.FinishTimeTicks is null)
        {
            throw NotIn(ErrorReason.BatchNotAtRest, batch, "is not at rest yet");
        }

        // A suspect stays one: it ran out of attempts because worker processes ended, and they may again.
        var count = await context.BatchItems
            .Where(row => row.Batch == batch.Id
                && (row.State == ItemState.Failed || row.State == ItemState.Cancelled))
            .ExecuteUpdateAsync(
                row => row
                    .SetProperty(item => item.State, ItemState.Queued)
                    .SetProperty(item => item.Attempt, 0)
                    .SetProperty(item => item.DueTicks, 0)
                    .SetProperty(item => item.Error, (string?)null)
                    .SetProperty(item => item.Severity, (long?)null),
                cancellationToken);
        if (count > 0)
        {
            batch.State = BatchState.Running;
            batch.FinishTimeTicks = null;
            batch.FailedCount = 0;
            batch.CancelledCount = 0;
            EventTable.Append(context, batch);
        }
    }

    /// <summary>Lets the batch come to rest if no item waits or runs.</summary>
    public static void Settle(BatchRow batch, DateTimeOffset now)
    {
        if (batch.State == BatchState.Open || batch.FinishTimeTicks is not null
            || batch.GradedCount + batch.FailedCount + batch.CancelledCount < batch.ItemCount)
        {
            return;
        }

        batch.FinishTimeTicks = now.UtcTicks;
        if (batch.State == BatchState.Running)
        {
            batch.State = BatchState.Succeeded;
        }
    }

    private static CoatScanException NotIn(ErrorReason reason, BatchRow batch, string what)
    {
        var state = batch.State.ToString().ToUpper(CultureInfo.InvariantCulture);
        return new(
            reason,
            $"The batch batches/{batch.Id} {what}; it is {state}.",
            "name",
            new Dictionary<string, string> { ["name"] = $"batches/{batch.Id}", ["state"] = state });
    }
}
