using Microsoft.ML.Data;

namespace CoatScan.Classification;

/// <summary>Output row of the network's pipeline.</summary>
internal sealed class NetworkOutput
{
    [ColumnName(NetworkPipeline.MeanColumn)]
    [VectorType(NetworkPipeline.FeatureLength)]
    public float[] Mean { get; set; } = [];

    [ColumnName(NetworkPipeline.PeakColumn)]
    [VectorType(NetworkPipeline.FeatureLength)]
    public float[] Peak { get; set; } = [];

    [ColumnName(NetworkPipeline.AnswerColumn)]
    [VectorType(CellMap.Classes)]
    public float[] Answer { get; set; } = [];

    /// <summary>As many as the picture has; those of the larger one are a <see cref="CellMap"/>.</summary>
    [ColumnName(NetworkPipeline.CellColumn)]
    public float[] Cells { get; set; } = [];
}
