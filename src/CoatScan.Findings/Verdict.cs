namespace CoatScan.Findings;

/// <summary>How far a finding, or the question who answers for it, is decided.</summary>
public enum Verdict
{
    /// <summary>The evidence decides it.</summary>
    Conclusive,

    /// <summary>Probable; a named test could still change it.</summary>
    Provisional,

    /// <summary>The evidence does not decide it; ask for the tests that the finding names.</summary>
    Inconclusive,

    /// <summary>No fault was found within the limits of what was shown.</summary>
    Sound,

    /// <summary>What was sent cannot be judged: no painted panel, or a photo too poor.</summary>
    NotAssessable,
}
