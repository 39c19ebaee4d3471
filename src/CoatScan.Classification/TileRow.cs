using Microsoft.ML.Data;

namespace CoatScan.Classification;

/// <summary>One tile as the tile model reads it: itself, and the picture it is part of.</summary>
internal sealed class TileRow
{
    [VectorType(DeepPipeline.Length)]
    public float[] Tile { get; set; } = [];

    [VectorType(DeepPipeline.Length)]
    public float[] Whole { get; set; } = [];

    /// <summary>Key from 1 in the order of the visual classes; 0 when unknown. Read in training only.</summary>
    [KeyType(16)]
    public uint Label { get; set; }
}
