namespace CoatScan.Findings;

/// <summary>A rating by a published standard.</summary>
/// <param name="Standard">Number of the standard, for example <c>ASTM D610</c>.</param>
/// <param name="Designation">The rating in the standard's own notation.</param>
/// <param name="Basis">From which measurement, and by which convention, it was computed.</param>
public sealed record Rating(string Standard, string Designation, string Basis);
