namespace CoatScan.Classification;

/// <summary>What the tile model says about one row.</summary>
internal sealed class TileScore
{
    /// <summary>Probabilities in the order of the visual classes.</summary>
    public float[] Score { get; set; } = [];
}
