namespace CoatScan.Findings;

/// <summary>How far the naming of a visual class was checked, from the evaluation of the model that named it.</summary>
public sealed record ClassCheck
{
    /// <summary>Kind of the photos.</summary>
    public required ClassCheckBasis Basis { get; init; }

    /// <summary>Photos of that kind that truly show the class, 0 or more.</summary>
    public required int Photos { get; init; }

    /// <summary>Share of them that were called so, [0, 1]; null without such photos.</summary>
    public required double? Recall { get; init; }

    /// <summary>Classes that the photos' one label stood for, this one among them; empty if it stood for this class alone.</summary>
    public IReadOnlyList<string> Together { get; init; } = [];
}
