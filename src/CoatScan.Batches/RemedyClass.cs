namespace CoatScan.Batches;

/// <summary>How deep a remedy goes, in words; least invasive first.</summary>
public enum RemedyClass
{
    /// <summary>Leave, watch, protect or wait.</summary>
    None,

    /// <summary>Wash, dissolve or lift off what lies on the film.</summary>
    Clean,

    /// <summary>Work by hand.</summary>
    HandPolish,

    /// <summary>Work by machine within the film.</summary>
    MachinePolish,

    /// <summary>Level, touch up or refinish inside the panel.</summary>
    LocalRepair,

    /// <summary>Refinish the panel.</summary>
    PanelRefinish,

    /// <summary>Down to the substrate.</summary>
    StripOrMetal,

    /// <summary>Replace the panel.</summary>
    Replace,
}
