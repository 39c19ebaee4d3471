using CoatScan.Batches;

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
/// <param name="Vehicles">Vehicles that fit the filter, worst first.</param>
public sealed record LaneModel(Batch Batch, IReadOnlyList<VehicleSummary> Vehicles)
{
    /// <summary>Vehicles of the lane in all.</summary>
    public int VehicleCount { get; init; }

    /// <summary>The filter.</summary>
    public LaneFilter Filter { get; init; }

    /// <summary>What a vehicle's name must contain; empty for anything.</summary>
    public string Search { get; init; } = "";

    /// <summary>Number of photos of each vehicle that is here, while the lane still takes some.</summary>
    public IReadOnlyDictionary<string, int> There { get; init; } = new Dictionary<string, int>();

    /// <summary>Files that were sent last and are no photos that can be used.</summary>
    public IReadOnlyList<string> Refused { get; init; } = [];
}
