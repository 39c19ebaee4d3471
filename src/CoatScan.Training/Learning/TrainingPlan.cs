using CoatScan.Training.Rendering;

namespace CoatScan.Training.Learning;

/// <summary>How much of what a training renders.</summary>
internal sealed record TrainingPlan
{
    /// <summary>Penalty on squared weights of the photo model.</summary>
    public float PhotoL2 { get; init; } = 30;

    public required IReadOnlyList<RenderedSet> Training { get; init; }

    /// <summary>Fits temperature and thresholds.</summary>
    public required IReadOnlyList<RenderedSet> Calibration { get; init; }

    public required RenderedSet HeldOutOrdinary { get; init; }

    public required RenderedSet HeldOutHarsh { get; init; }

    /// <param name="perClass">Training panels of each class; the other sets follow in proportion.</param>
    public static TrainingPlan For(int perClass)
    {
        var half = Math.Max(2, perClass / 2);
        var tenth = Math.Max(2, perClass / 10);
        return new TrainingPlan
        {
            Training = [new("training", 1, half, false), new("training harsh", 10_001, half, true)],
            Calibration = [new("calibration", 20_001, tenth, false), new("calibration harsh", 30_001, tenth, true)],
            HeldOutOrdinary = new("held out", 40_001, tenth, false),
            HeldOutHarsh = new("held out harsh", 50_001, tenth, true),
        };
    }
}
