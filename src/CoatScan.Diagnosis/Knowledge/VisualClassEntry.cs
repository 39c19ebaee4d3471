using System.Text.Json.Serialization;

namespace CoatScan.Diagnosis;

/// <summary>Something that a photo can show.</summary>
/// <param name="Name">Name for the reader.</param>
/// <param name="Text">What is seen.</param>
/// <param name="Signs">Ids of the signs that it stands for; empty if it is no panel.</param>
/// <param name="Panel">Whether it is seen on a painted panel; conditions follow only from such classes.</param>
public sealed record VisualClassEntry(string Name, string Text, IReadOnlyList<string> Signs, bool Panel = true)
{
    /// <summary>Id, for example <c>rings</c>.</summary>
    [JsonIgnore]
    public string Id { get; init; } = "";
}
