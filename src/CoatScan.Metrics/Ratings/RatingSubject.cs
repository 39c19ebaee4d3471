namespace CoatScan.Metrics.Ratings;

/// <summary>What a standard rates. Which of them is on the panel is not for the numbers to say.</summary>
public enum RatingSubject
{
    /// <summary>Rust: ISO 4628-3, ASTM D610.</summary>
    Rust,

    /// <summary>Flaked, peeled or chipped film: ISO 4628-5.</summary>
    FilmLoss,

    /// <summary>Blisters: ISO 4628-2.</summary>
    Blisters,

    /// <summary>Cracks: ISO 4628-4.</summary>
    Cracks,

    /// <summary>Other separate marks: ISO 4628-1.</summary>
    Spots,
}
