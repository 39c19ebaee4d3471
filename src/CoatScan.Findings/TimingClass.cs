namespace CoatScan.Findings;

/// <summary>How a condition comes about in time.</summary>
public enum TimingClass
{
    /// <summary>It cannot be told.</summary>
    CannotTell,

    /// <summary>Over months or years.</summary>
    Gradual,

    /// <summary>At once, from an event.</summary>
    Event,

    /// <summary>From one event or many small ones.</summary>
    EventOrAccumulated,

    /// <summary>From the way it was painted.</summary>
    Workmanship,

    /// <summary>From age or from the way it was painted.</summary>
    AgeingOrWorkmanship,
}
