using System.Text.Json.Serialization;
using CoatScan.Findings;

namespace CoatScan.Diagnosis;

/// <summary>One operation of a remedy.</summary>
/// <param name="Text">What it is, in words.</param>
/// <param name="Plain">The same in a few everyday words, as an order: what an owner is told not to let anybody do.</param>
/// <param name="Invasiveness">0 (leave it) to 8 (replace the panel).</param>
/// <param name="SpendsFilm">Whether it takes film away, covers it or cannot be undone.</param>
/// <param name="Harmless">Whether it may be done while the condition is open.</param>
/// <param name="Hours">Labor for one mid-size panel, a range and not a quote; null if no range is known.</param>
/// <param name="HoursFor">What the hours are for, where it is not one mid-size panel.</param>
/// <param name="Materials">Materials as plain ranges; null if none are known.</param>
/// <param name="SpendsUm">Film that one pass takes away, micrometers; null if none or unknown.</param>
public sealed record OperationEntry(
    string Text,
    string Plain,
    int Invasiveness,
    bool SpendsFilm,
    bool Harmless,
    HourRange? Hours = null,
    string? HoursFor = null,
    string? Materials = null,
    FilmSpend? SpendsUm = null)
{
    /// <summary>Id, for example <c>machine_polish</c>.</summary>
    [JsonIgnore]
    public string Id { get; init; } = "";
}
