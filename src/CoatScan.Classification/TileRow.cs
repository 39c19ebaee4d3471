using Microsoft.ML.Data;

namespace CoatScan.Classification;

/// <summary>One tile as the tile model reads it: itself, and the picture it is part of.</summary>
internal sealed class TileRow
{
    [VectorType(DeepPipeline.Length)]
    public float[] Tile { get; set; } = [];

    [VectorType(DeepPipeline.Length)]
    public float[] Whole { get; set; } = [];

    /// <summary>Position in the visual classes (ML.NET turns it into a key itself). Read in training only.</summary>
    [KeyType(16)]
    public uint Label { get; set; }
}
