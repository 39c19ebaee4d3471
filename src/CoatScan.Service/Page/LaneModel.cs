using CoatScan.Batches;
using CoatScan.Findings;
using RemedyClass = CoatScan.Batches.RemedyClass;

namespace CoatScan.Service.Page;

/// <summary>Which vehicles of a lane to show.</summary>
public enum LaneFilter
{
    /// <summary>Every vehicle.</summary>
    All,

    /// <summary>Those with photos to take again.</summary>
    Retake,

    /// <summary>Those with a fault that is decided or likely.</summary>
    Fault,

    /// <summary>Those with something undecided, failed or not judged.</summary>
    Open,
}

/// <summary>What the view of a lane shows.</summary>
/// <param name="Batch">The batch with its counts.</param>
/// <param name="Vehicles">Vehicles that have something to show, worst first; the filter hides, so that the browser can change it alone.</param>
public sealed record LaneModel(Batch Batch, IReadOnlyList<VehicleSummary> Vehicles)
{
    /// <summary>Vehicles of the lane in all.</summary>
    public int VehicleCount { get; init; }

    /// <summary>The filter.</summary>
    public LaneFilter Filter { get; init; }

    /// <summary>What a vehicle's name must contain; empty for anything.</summary>
    public string Search { get; init; } = "";

    /// <summary>The filters that a vehicle fits, beside that for all.</summary>
    public static IEnumerable<LaneFilter> FiltersOf(VehicleSummary vehicle)
    {
        ArgumentNullException.ThrowIfNull(vehicle);
        if (vehicle.Panels.Any(panel => panel.Retakes.Count > 0))
        {
            yield return LaneFilter.Retake;
        }

        if (vehicle.Panels.Any(panel => panel.Summary is { Verdict: Verdict.Conclusive or Verdict.Provisional, MostRemedy: > RemedyClass.None }))
        {
            yield return LaneFilter.Fault;
        }

        if (vehicle.OpenCount > 0 || vehicle.Panels.Any(panel => panel.Summary is null or { Verdict: Verdict.Inconclusive or Verdict.NotAssessable }))
        {
            yield return LaneFilter.Open;
        }
    }

    /// <summary>Whether a vehicle fits filter and search.</summary>
    public bool Shows(VehicleSummary vehicle)
    {
        ArgumentNullException.ThrowIfNull(vehicle);
        return (Filter == LaneFilter.All || FiltersOf(vehicle).Contains(Filter))
            && vehicle.VehicleRef.Contains(Search, StringComparison.OrdinalIgnoreCase);
    }

    /// <summary>Number of photos of each vehicle that is here, while the lane still takes some.</summary>
    public IReadOnlyDictionary<string, int> There { get; init; } = new Dictionary<string, int>();

    /// <summary>Files that were sent last and are no photos that can be used.</summary>
    public IReadOnlyList<string> Refused { get; init; } = [];
}
