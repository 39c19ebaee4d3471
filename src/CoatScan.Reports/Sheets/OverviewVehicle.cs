namespace CoatScan.Reports;

/// <summary>One vehicle of a summary of many.</summary>
/// <param name="Name">The vehicle as its user knows it.</param>
/// <param name="Href">File of its sheet; empty for none.</param>
/// <param name="Panels">Its panels, worst first.</param>
public sealed record OverviewVehicle(string Name, string Href, IReadOnlyList<OverviewEntry> Panels);
