namespace CoatScan.Findings;

/// <summary>One photo as it was received and how well it can be judged.</summary>
public sealed record PhotoReport
{
    /// <summary>SHA-256 of the received bytes, lower-case hex.</summary>
    public required string Sha256 { get; init; }

    /// <summary>The caller's name of the photo, text only; empty if not given.</summary>
    public string DisplayName { get; init; } = "";

    /// <summary>Width after orientation, pixels.</summary>
    public required int WidthPx { get; init; }

    /// <summary>Height after orientation, pixels.</summary>
    public required int HeightPx { get; init; }

    /// <summary>Capture time as the camera wrote it, local to the camera, ISO 8601; null if the photo carries none.</summary>
    public string? CaptureTime { get; init; }

    /// <summary>The 64 bits by which the same picture is found again; null for a picture too flat to have them.</summary>
    public ulong? PictureHash { get; init; }

    /// <summary>The same picture in earlier findings, nearest first; facts, no judgment. Empty where none was or nobody looked.</summary>
    public IReadOnlyList<EarlierPicture> SeenBefore { get; init; } = [];

    /// <summary>The largest of the spots that were counted, to be drawn on the photo; the count itself is a measurement.</summary>
    public IReadOnlyList<SpotMark> Spots { get; init; } = [];

    /// <summary>Counted spots that are not among <see cref="Spots"/> because there are too many, smaller than those.</summary>
    public int SpotsLeftOut { get; init; }

    /// <summary>Lines that show what was measured by: the scale card, reflected edges.</summary>
    public IReadOnlyList<PhotoOutline> Outlines { get; init; } = [];

    /// <summary>What limits trust in the photo.</summary>
    public IReadOnlyList<PhotoIssue> Issues { get; init; } = [];

    /// <summary>Where the scale comes from, and its value.</summary>
    public PhotoScale Scale { get; init; } = PhotoScale.Unknown;

    /// <summary>What was done to the color.</summary>
    public PhotoColor Color { get; init; } = PhotoColor.Unknown;
}
