namespace CoatScan.Diagnosis;

/// <summary>The evidence that tells two look-alikes apart.</summary>
/// <param name="First">Id of the one condition.</param>
/// <param name="Second">Id of the other.</param>
/// <param name="AnyOf">Ids of the evidence; one of them closes the pair.</param>
/// <param name="Reading">How to read it.</param>
public sealed record DeciderEntry(string First, string Second, IReadOnlyList<string> AnyOf, string Reading);
