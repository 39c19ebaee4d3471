namespace CoatScan.Reports;

/// <summary>How loud a paragraph is.</summary>
public enum Tone
{
    /// <summary>Body text.</summary>
    Plain,

    /// <summary>The sentence that a hurried reader takes away.</summary>
    Lead,

    /// <summary>Small print.</summary>
    Small,
}
