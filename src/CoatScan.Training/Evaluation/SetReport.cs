namespace CoatScan.Training.Evaluation;

/// <summary>How the classifier does on one set of photos.</summary>
internal sealed record SetReport
{
    /// <summary>What the photos are.</summary>
    public required string Photos { get; init; }

    /// <summary>Number of photos.</summary>
    public required int Count { get; init; }

    /// <summary>Independent groups, by which the intervals are drawn.</summary>
    public required int Groups { get; init; }

    /// <summary>Mean F1 over the classes that occur, without not_a_panel; all answers allowed.</summary>
    public required Interval MacroF1 { get; init; }

    /// <summary>Mean F1 over all classes, not_a_panel among them; null where one of them does not occur.</summary>
    public required double? MacroF1AllClasses { get; init; }

    /// <summary>The first when only the classes that occur are allowed as answers.</summary>
    public required double MacroF1AmongOccurring { get; init; }

    /// <summary>Share of right answers.</summary>
    public required Interval Accuracy { get; init; }

    /// <summary>Share of right answers among the half of the photos with the highest confidence.</summary>
    public required double AccuracySurerHalf { get; init; }

    /// <summary>Share of photos whose true class is among the three most probable.</summary>
    public required double TopThree { get; init; }

    /// <summary>Expected calibration error of the most probable class, 10 bins.</summary>
    public required Interval Ece10 { get; init; }

    /// <summary>
    /// The same of the probabilities as findings carry them, every class counted by how often it is expected; null for sets whose shares are
    /// not known.
    /// </summary>
    public required double? Ece10AsExpected { get; init; }

    /// <summary>Brier score over all classes, [0, 2].</summary>
    public required double Brier { get; init; }

    /// <summary>Share of photos called no painted panel, among photos that show one; null without such photos.</summary>
    public required double? PanelsRefused { get; init; }

    /// <summary>Share of photos called no painted panel, among photos that show none; null without such photos.</summary>
    public required double? NonPanelsRefused { get; init; }

    /// <summary>Share of photos that are familiar.</summary>
    public required double Familiar { get; init; }

    /// <summary>Share of photos whose true class is in the set of those that cannot be excluded.</summary>
    public required double SetCoverage { get; init; }

    /// <summary>The same, every class counted by how often it is expected: what the set's coverage is stated for.</summary>
    public required double SetCoverageAsExpected { get; init; }

    /// <summary>Mean number of classes in the set.</summary>
    public required double SetSize { get; init; }

    /// <summary>Confidence against share of right answers.</summary>
    public required IReadOnlyList<ReliabilityBin> Reliability { get; init; }

    /// <summary>Errors when only the surest answers are given.</summary>
    public required IReadOnlyList<RiskPoint> RiskCoverage { get; init; }

    /// <summary>Class by class.</summary>
    public required IReadOnlyList<ClassReport> Classes { get; init; }

    /// <summary>What the rows and columns of the confusion are called.</summary>
    public required IReadOnlyList<string> Names { get; init; }

    /// <summary>Rows: true class; columns: most probable class; both in the order of the visual classes.</summary>
    public required int[][] Confusion { get; init; }
}
