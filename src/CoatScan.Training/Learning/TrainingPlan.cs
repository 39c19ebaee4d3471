using CoatScan.DemoPanels;
using CoatScan.Training.Rendering;

namespace CoatScan.Training.Learning;

/// <summary>How much of what a training renders.</summary>
internal sealed record TrainingPlan
{
    /// <summary>Penalty on squared weights of the photo model.</summary>
    public float PhotoL2 { get; init; } = 30;

    public required IReadOnlyList<RenderedSet> Training { get; init; }

    /// <summary>Fits scaling, thresholds and conformal sets; at least two kinds of camera.</summary>
    public required IReadOnlyList<RenderedSet> Calibration { get; init; }

    public required RenderedSet HeldOutOrdinary { get; init; }

    public required RenderedSet HeldOutHarsh { get; init; }

    /// <summary>Other paints, lights, cameras and things than any of the sets above.</summary>
    public required RenderedSet HeldOutShifted { get; init; }

    /// <summary>Fits the rule by which a second fault is named.</summary>
    public required RenderedSet TwoFaults { get; init; }

    /// <summary>Judges it.</summary>
    public required RenderedSet HeldOutTwoFaults { get; init; }

    // 800 held-out photos of each kind: fewer leave the interval too wide to compare models, and say little of a single class.
    private const int LeastHeldOut = 32;

    // Equal shares would have the model call a fault where a sound panel only looks unusual.
    private const int MoreSound = 4;

    /// <summary>
    /// What continuous integration trains within two minutes: enough to see that the way from renders to a written model works and is good for
    /// the score that its test states.
    /// </summary>
    public static TrainingPlan Small { get; } = new()
    {
        Training = [new("small training", 110_001, 4, false), new("small training harsh", 120_001, 2, true)],
        Calibration = [new("small calibration", 130_001, 2, false), new("small calibration harsh", 190_001, 1, true)],
        HeldOutOrdinary = new("small held out", 140_001, 3, false) { Measured = false },
        HeldOutHarsh = new("small held out harsh", 150_001, 1, true) { Measured = false },
        HeldOutShifted = new("small held out shifted", 160_001, 1, false) { Look = PanelLook.Shifted, Measured = false },
        TwoFaults = new("small two faults", 170_001, 1, false) { TwoFaults = true, Measured = false },
        HeldOutTwoFaults = new("small held out two faults", 180_001, 1, false) { TwoFaults = true, Measured = false },
        Compares = false,
    };

    /// <summary>Whether other kinds of models are trained too, to compare, and pictures without a panel are sent the whole way.</summary>
    public bool Compares { get; init; } = true;

    /// <param name="perClass">Training panels of each class; the other sets follow in proportion.</param>
    public static TrainingPlan For(int perClass)
    {
        var half = Math.Max(2, perClass / 2);
        var seventh = Math.Max(2, perClass / 7);
        var tenth = Math.Max(2, perClass / 10);
        var heldOut = Math.Max(LeastHeldOut, perClass / 10);
        return new TrainingPlan
        {
            Training = [new("training", 1, half, false, MoreSound), new("training harsh", 10_001, half, true, MoreSound)],
            Calibration =
            [
                new("calibration", 20_001, seventh, false, MoreSound), new("calibration harsh", 30_001, seventh, true, MoreSound),
            ],
            HeldOutOrdinary = new("held out", 40_001, heldOut, false),
            HeldOutHarsh = new("held out harsh", 50_001, heldOut, true),
            HeldOutShifted = new("held out shifted", 60_001, heldOut, false) { Look = PanelLook.Shifted, Measured = false },
            TwoFaults = new("two faults", 70_001, tenth, false) { TwoFaults = true, Measured = false },
            HeldOutTwoFaults = new("held out two faults", 80_001, tenth, false) { TwoFaults = true, Measured = false },
        };
    }
}
