namespace CoatScan.Findings;

/// <summary>What the film readings of one panel point to.</summary>
public enum FilmClass
{
    /// <summary>Thin: polished before, or a single coat.</summary>
    Thin,

    /// <summary>A factory finish.</summary>
    Factory,

    /// <summary>A repaint.</summary>
    Repaint,

    /// <summary>Several finishes on one another.</summary>
    SeveralFinishes,

    /// <summary>Filler below the finish.</summary>
    Filler,
}
