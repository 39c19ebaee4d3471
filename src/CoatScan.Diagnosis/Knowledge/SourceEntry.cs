using System.Text.Json.Serialization;

namespace CoatScan.Diagnosis;

/// <summary>One public source.</summary>
/// <param name="Text">Where it is found.</param>
public sealed record SourceEntry(string Text)
{
    /// <summary>Key, for example <c>iso-4628</c>.</summary>
    [JsonIgnore]
    public string Key { get; init; } = "";
}
