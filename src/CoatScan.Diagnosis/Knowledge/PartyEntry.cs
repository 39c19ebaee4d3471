using System.Text.Json.Serialization;

namespace CoatScan.Diagnosis;

/// <summary>Somebody or something that can answer for a cause.</summary>
/// <param name="Text">The party in words.</param>
public sealed record PartyEntry(string Text)
{
    /// <summary>Id, for example <c>applicator</c>.</summary>
    [JsonIgnore]
    public string Id { get; init; } = "";
}
