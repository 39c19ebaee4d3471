using CoatScan.Batches;
using Wire = CoatScan.V1;

namespace CoatScan.Service.Mapping;

/// <summary>Vehicles of a batch -> contract.</summary>
internal static class VehicleMapping
{
    public static Wire.VehicleSummary ToWire(VehicleSummary vehicle, string batch)
    {
        var wire = new Wire.VehicleSummary { VehicleRef = vehicle.VehicleRef, OpenCount = vehicle.OpenCount };
        wire.Panels.Add(vehicle.Panels.Select(panel => ToWire(panel, batch)));
        return wire;
    }

    private static Wire.VehiclePanel ToWire(VehiclePanel panel, string batch)
    {
        var wire = new Wire.VehiclePanel
        {
            Panel = panel.Panel,
            Item = BatchNames.OfItem(batch, panel.Item),
            Finding = panel.Finding ?? "",
        };
        wire.Retakes.Add(panel.Retakes);
        if (panel.Error is { } error)
        {
            wire.Error = BatchMapping.ToWire(error);
        }

        if (panel.Summary is not { } summary)
        {
            return wire;
        }

        wire.Verdict = FindingMapping.ToWire(summary.Verdict);
        wire.Condition = summary.Condition is { } condition ? ResourceNames.Condition(condition) : "";
        wire.ConditionDisplayName = summary.ConditionName;
        wire.Probability = summary.Probability;
        wire.Rating = summary.Rating;
        wire.LeastRemedy = UpperSnake.Of(summary.LeastRemedy);
        wire.MostRemedy = UpperSnake.Of(summary.MostRemedy);
        if (summary.Hours is { } hours)
        {
            wire.Hours = new Wire.HourRange { Low = hours.Low, High = hours.High };
        }

        return wire;
    }
}
