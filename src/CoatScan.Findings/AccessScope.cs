namespace CoatScan.Findings;

/// <summary>What a credential allows; each scope holds the ones before it.</summary>
public enum AccessScope
{
    /// <summary>Get, list, watch, compare.</summary>
    Read,

    /// <summary>Upload photos, make findings, grade batches.</summary>
    Write,

    /// <summary>Delete photos and findings.</summary>
    Admin,
}
