using System.Text.Json.Serialization;

namespace CoatScan.Training.Evaluation;

/// <summary>How well a second fault on one panel is named.</summary>
internal sealed record SecondFaultReport
{
    /// <summary>Rendered photos with two faults.</summary>
    public required int TwoFaultPhotos { get; init; }

    /// <summary>Photos with one fault or none.</summary>
    public required int OtherPhotos { get; init; }

    /// <summary>Share of the photos with two faults whose most probable class is one of them.</summary>
    public required double? FirstRight { get; init; }

    /// <summary>Share of the photos with two faults on which both are named: the recall.</summary>
    public required Interval? BothNamed { get; init; }

    /// <summary>Share of all named second classes that are there, over all photos: the precision.</summary>
    public required Interval? Precision { get; init; }

    /// <summary>Share of the other photos on which a second class is named that is not there.</summary>
    public required double? WrongBesideOne { get; init; }

    /// <summary>Agreement (F1) of the second class's cells with its mask, where both are named.</summary>
    public double? CellF1 { get; init; }

    /// <summary>What <see cref="CellF1"/> is worked out from.</summary>
    [JsonIgnore]
    public IReadOnlyList<(double Share, bool Marked)> Cells { get; init; } = [];
}
