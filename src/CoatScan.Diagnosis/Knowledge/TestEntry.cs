using System.Text.Json.Serialization;

namespace CoatScan.Diagnosis;

/// <summary>One test at the car, or one look that costs nothing.</summary>
public sealed record TestEntry
{
    /// <summary>Id, for example <c>acid</c>.</summary>
    [JsonIgnore]
    public string Id { get; init; } = "";

    /// <summary>Name.</summary>
    public required string Name { get; init; }

    /// <summary>How to make it.</summary>
    public required string How { get; init; }

    /// <summary>Ids of what it can say; empty where it brings a picture or an answer.</summary>
    public required IReadOnlyList<string> Outcomes { get; init; }

    /// <summary>Whether none of the outcomes can be the honest answer.</summary>
    public bool MaySayNothing { get; init; }

    /// <summary>When it is worth asking for whatever its gain; null for never.</summary>
    public TestLook? Look { get; init; }

    /// <summary>How long it takes, minutes.</summary>
    public required int Minutes { get; init; }

    /// <summary>0 leaves no trace, 1 touches the surface, 2 spends film or needs a hidden place, 3 destroys.</summary>
    public required int Invasiveness { get; init; }

    /// <summary>Who can make it.</summary>
    public required string Who { get; init; }

    /// <summary>What to watch for; empty if nothing.</summary>
    public required string Caution { get; init; }
}
