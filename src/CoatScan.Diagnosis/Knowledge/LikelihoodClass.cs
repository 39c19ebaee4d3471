namespace CoatScan.Diagnosis;

/// <summary>How strongly one piece of evidence speaks for or against a condition or cause; trade judgment.</summary>
public enum LikelihoodClass
{
    /// <summary>Raises strongly.</summary>
    StrongFor,

    /// <summary>Raises.</summary>
    ModerateFor,

    /// <summary>Raises weakly.</summary>
    WeakFor,

    /// <summary>Lowers weakly.</summary>
    WeakAgainst,

    /// <summary>Lowers.</summary>
    ModerateAgainst,

    /// <summary>Lowers so far that little is left.</summary>
    RulesOut,
}
