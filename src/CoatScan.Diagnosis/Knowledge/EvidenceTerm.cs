using System.Text.Json.Serialization;

namespace CoatScan.Diagnosis;

/// <summary>One thing that can be said about a panel.</summary>
/// <param name="Group">Group, for example <c>form</c>, <c>finish</c> or <c>test</c>.</param>
/// <param name="Text">What it says, in words.</param>
public sealed record EvidenceTerm(string Group, string Text)
{
    /// <summary>Id, for example <c>form.rings</c>.</summary>
    [JsonIgnore]
    public string Id { get; init; } = "";
}
