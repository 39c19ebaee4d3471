using CoatScan.Batches;
using CoatScan.Findings;
using CoatScan.Storage.Rows;

namespace CoatScan.Storage.Ledger;

/// <summary>How an attempt ends: the item, its batch and the event change together.</summary>
internal static class ItemOutcome
{
    public static void Grade(
        FindingContext context, BatchRow batch, BatchItemRow item, GradedItem graded, DateTimeOffset now)
    {
        var finding = FindingTable.RowOf(graded.Finding);
        finding.BatchItem = $"{item.Batch}/{item.ItemKey}";
        finding.Given = LedgerDocument.Write(new FindingInputs(LedgerDocument.Read<NewItem>(item.Given).Facts, Zones: null));
        context.Findings.Add(finding);
        context.FindingPhotos.AddRange(FindingTable.PhotoRowsOf(graded.Finding, finding));
        item.FindingId = finding.Id;
        item.Summary = LedgerDocument.Write(graded.Summary);
        item.Severity = graded.Summary.Severity;
        item.Error = null;
        Release(item, ItemState.Graded);
        batch.GradedCount++;
        BatchControl.Settle(batch, now);
        EventTable.Append(context, batch, item);
    }

    public static void Fail(
        FindingContext context, BatchRow batch, BatchItemRow item, ItemError error, DateTimeOffset now)
    {
        item.Error = LedgerDocument.Write(error);
        item.Severity = Severity.Failed;
        Release(item, ItemState.Failed);
        batch.FailedCount++;
        BatchControl.Settle(batch, now);
        EventTable.Append(context, batch, item);
    }

    /// <summary>Lets the item wait again; in a batch that was cancelled meanwhile, it is cancelled too.</summary>
    public static void Requeue(
        FindingContext context, BatchRow batch, BatchItemRow item, long dueTicks, DateTimeOffset now)
    {
        item.DueTicks = dueTicks;
        if (batch.State != BatchState.Cancelled)
        {
            Release(item, ItemState.Queued);
            return;
        }

        Release(item, ItemState.Cancelled);
        batch.CancelledCount++;
        BatchControl.Settle(batch, now);
        EventTable.Append(context, batch, item);
    }

    private static void Release(BatchItemRow item, ItemState state)
    {
        item.State = state;
        item.Worker = "";
        item.LeaseUntilTicks = null;
    }
}
