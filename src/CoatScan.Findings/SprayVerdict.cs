namespace CoatScan.Findings;

/// <summary>Whether to spray.</summary>
public enum SprayVerdict
{
    /// <summary>Within all limits.</summary>
    Spray,

    /// <summary>Within the limits, with care as the gates say.</summary>
    SprayWithCare,

    /// <summary>Outside a limit.</summary>
    DoNotSpray,
}
