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

    // 800 held-out photos: fewer leave the interval too wide to compare models.
    private const int LeastHeldOut = 16;

    // Equal shares would have the model call a fault where a sound panel only looks unusual.
    private const int MoreSound = 4;

    /// <param name="perClass">Training panels of each class; the other sets follow in proportion.</param>
    public static TrainingPlan For(int perClass)
    {
        var half = Math.Max(2, perClass / 2);
        var tenth = Math.Max(2, perClass / 10);
        return new TrainingPlan
        {
            Training = [new("training", 1, half, false, MoreSound), new("training harsh", 10_001, half, true, MoreSound)],
            Calibration =
            [
                new("calibration", 20_001, tenth, false, MoreSound), new("calibration harsh", 30_001, tenth, true, MoreSound),
            ],
            HeldOutOrdinary = new("held out", 40_001, Math.Max(LeastHeldOut, tenth), false),
            HeldOutHarsh = new("held out harsh", 50_001, Math.Max(LeastHeldOut, tenth), true),
        };
    }
}
