namespace CoatScan.Findings;

/// <summary>One limit of a photo and how to take a better one.</summary>
/// <param name="Code">What the matter is.</param>
/// <param name="Detail">What was measured, with its number and limit.</param>
/// <param name="HowToFix">What to do at the car.</param>
/// <param name="Limits">What the photo can still support and what no longer.</param>
public sealed record PhotoIssue(PhotoIssueCode Code, string Detail, string HowToFix, string Limits);
