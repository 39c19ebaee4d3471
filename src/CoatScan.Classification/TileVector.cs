using Microsoft.ML.Data;

namespace CoatScan.Classification;

/// <summary>Output row of the network's pipeline.</summary>
internal sealed class TileVector
{
    [ColumnName(DeepPipeline.OutputColumn)]
    [VectorType(DeepPipeline.Length)]
    public float[] Values { get; set; } = [];
}
