using CoatScan.Classification;

namespace CoatScan.Training.Learning;

/// <summary>One photo with what is known about it.</summary>
internal sealed record Sample
{
    /// <summary>Position of the true class in the visual classes.</summary>
    public required int ClassIndex { get; init; }

    /// <summary>Photos of one group are not independent of each other.</summary>
    public required string Group { get; init; }

    public required PhotoFeatures Features { get; init; }

    /// <summary>What the product measured, as numbers: see <see cref="MeasuredValues"/>; empty where nothing was measured.</summary>
    public required float[] Measured { get; init; }

    /// <summary>Class of each cell, or -1 where the mask does not decide; empty for photos without a mask.</summary>
    public required int[] CellLabels { get; init; }

    /// <summary>Position of the class of a second fault; -1 for none.</summary>
    public int SecondIndex { get; init; } = -1;

    /// <summary>The same for the second fault; empty without one.</summary>
    public int[] SecondCellLabels { get; init; } = [];
}
