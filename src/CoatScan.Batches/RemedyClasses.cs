namespace CoatScan.Batches;

/// <summary>Sorts operations into classes.</summary>
internal static class RemedyClasses
{
    /// <summary>The class of an operation.</summary>
    /// <param name="invasiveness">0 to 8, as the knowledge base states it.</param>
    public static RemedyClass Of(int invasiveness) => invasiveness switch
    {
        0 => RemedyClass.None,
        1 => RemedyClass.Clean,
        2 => RemedyClass.HandPolish,
        3 => RemedyClass.MachinePolish,
        4 or 5 => RemedyClass.LocalRepair,
        6 => RemedyClass.PanelRefinish,
        7 => RemedyClass.StripOrMetal,
        _ => RemedyClass.Replace,
    };
}
