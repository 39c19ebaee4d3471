using System.Globalization;
using CoatScan.Batches;
using CoatScan.Findings;
using CoatScan.Service.Endpoints;
using Google.Protobuf.WellKnownTypes;
using Wire = CoatScan.V1;

namespace CoatScan.Service.Mapping;

/// <summary>Batches and items -> contract.</summary>
internal static class BatchMapping
{
    public static Wire.Batch ToWire(Batch batch)
    {
        var wire = new Wire.Batch
        {
            Name = BatchNames.Of(batch.Id),
            DisplayName = batch.DisplayName,
            State = batch.State switch
            {
                BatchState.Open => Wire.Batch.Types.State.Open,
                BatchState.Running => Wire.Batch.Types.State.Running,
                BatchState.Succeeded => Wire.Batch.Types.State.Succeeded,
                _ => Wire.Batch.Types.State.Cancelled,
            },
            ItemCount = batch.ItemCount,
            GradedCount = batch.GradedCount,
            FailedCount = batch.FailedCount,
            CancelledCount = batch.CancelledCount,
            CreateTime = Timestamp.FromDateTimeOffset(batch.CreateTime),
            Etag = batch.Version.ToString(CultureInfo.InvariantCulture),
        };
        if (batch.FinishTime is { } finishTime)
        {
            wire.FinishTime = Timestamp.FromDateTimeOffset(finishTime);
        }

        return wire;
    }

    public static Wire.BatchItem ToWire(BatchItem item, string batch)
    {
        var wire = new Wire.BatchItem
        {
            Name = BatchNames.OfItem(batch, item.Given.Key),
            Key = item.Given.Key,
            VehicleRef = item.Given.VehicleRef,
            Panel = item.Given.Facts.Panel,
            Facts = FactsMapping.ToWire(item.Given.Facts),
            State = item.State switch
            {
                ItemState.Queued => Wire.BatchItem.Types.State.Queued,
                ItemState.Running => Wire.BatchItem.Types.State.Running,
                ItemState.Graded => Wire.BatchItem.Types.State.Graded,
                ItemState.Failed => Wire.BatchItem.Types.State.Failed,
                _ => Wire.BatchItem.Types.State.Cancelled,
            },
            AttemptCount = item.AttemptCount,
            Finding = item.Finding ?? "",
            Position = item.Position,
        };
        wire.Photos.Add(item.Given.Photos);
        if (item.Error is { } error)
        {
            wire.Error = ToWire(error);
        }

        return wire;
    }

    public static Google.Rpc.Status ToWire(ItemError error) =>
        RichErrors.ToStatus(new CoatScanException(error.Reason, error.Message, error.Field, error.Metadata));

    /// <summary>The version in an etag; null if none was sent, and one that no batch has if it is none of ours.</summary>
    public static long? ToVersion(string etag) => etag.Length == 0
        ? null
        : long.TryParse(etag, NumberStyles.None, CultureInfo.InvariantCulture, out var version) ? version : -1;

    /// <summary>The states of a filter.</summary>
    /// <exception cref="CoatScanException">FIELD_INVALID.</exception>
    public static IReadOnlyCollection<ItemState> ToStates(IReadOnlyList<Wire.BatchItem.Types.State> states) =>
        [.. states.Select((state, index) => state switch
        {
            Wire.BatchItem.Types.State.Queued => ItemState.Queued,
            Wire.BatchItem.Types.State.Running => ItemState.Running,
            Wire.BatchItem.Types.State.Graded => ItemState.Graded,
            Wire.BatchItem.Types.State.Failed => ItemState.Failed,
            Wire.BatchItem.Types.State.Cancelled => ItemState.Cancelled,
            _ => throw new CoatScanException(
                ErrorReason.FieldInvalid, $"states[{index}] is no state of an item.", $"states[{index}]"),
        })];
}
