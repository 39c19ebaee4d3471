namespace CoatScan.Service.Page;

/// <summary>What can be printed of one finding.</summary>
internal enum FindingPaper
{
    /// <summary>The finding, to file.</summary>
    Sheet,

    /// <summary>A note for the owner, with a care card.</summary>
    Note,

    /// <summary>The steps for the shop.</summary>
    JobCard,
}
