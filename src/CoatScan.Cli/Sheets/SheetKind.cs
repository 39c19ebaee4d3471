namespace CoatScan.Cli.Sheets;

/// <summary>A sheet that can be written of a finding, or of several.</summary>
internal enum SheetKind
{
    /// <summary>One finding, to file.</summary>
    Finding,

    /// <summary>A note for the owner, with a care card.</summary>
    Customer,

    /// <summary>The steps for the shop.</summary>
    JobCard,

    /// <summary>All findings as panels of one vehicle.</summary>
    Vehicle,
}
