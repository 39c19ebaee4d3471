namespace CoatScan.Findings;

/// <summary>What the caller knows about a panel and a photo cannot show.</summary>
public sealed record PanelFacts
{
    /// <summary>Ids of the evidence vocabulary, without repeats; said by the caller.</summary>
    public IReadOnlyList<string> Evidence { get; init; } = [];

    /// <summary>Evidence with who said it; joined with <see cref="Evidence"/>. Several people may say the same.</summary>
    public IReadOnlyList<Statement> Statements { get; init; } = [];

    /// <summary>Readings.</summary>
    public Readings Readings { get; init; } = Readings.None;

    /// <summary>Scale of the photos, millimeters per pixel of the original, (0, 10]; null if unknown.</summary>
    public double? MmPerPx { get; init; }

    /// <summary>From the panel to the straight object that it mirrors, millimeters, (0, 100000]; null if unknown. Only with
    /// <see cref="CameraDistanceMm"/>.</summary>
    public double? ReflectedDistanceMm { get; init; }

    /// <summary>From the panel to the camera, millimeters, (0, 100000]; null if unknown. Only with <see cref="ReflectedDistanceMm"/>.</summary>
    public double? CameraDistanceMm { get; init; }

    /// <summary>Day on which the finish was applied; null if unknown. With it, waits are given as dates.</summary>
    public DateOnly? AppliedOn { get; init; }

    /// <summary>The caller's name of the panel, at most 64 characters.</summary>
    public string Panel { get; init; } = "";

    /// <summary>The caller's own reference, at most 128 characters; never parsed.</summary>
    public string ExternalRef { get; init; } = "";
}
