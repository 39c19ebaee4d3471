namespace CoatScan.Findings;

/// <summary>What a line on a photo is.</summary>
public enum OutlineKind
{
    /// <summary>The border of the scale card, closed, from its upper left corner on.</summary>
    ScaleCard,

    /// <summary>A reflected edge along which waviness was read, open.</summary>
    ReflectedEdge,
}
