using Microsoft.ML.Data;

namespace CoatScan.Classification;

/// <summary>One photo as the photo model reads it.</summary>
internal sealed class PhotoRow
{
    public float[] Mean { get; set; } = [];

    public float[] Peak { get; set; } = [];

    public float[] Answer { get; set; } = [];

    public float[] CellPeaks { get; set; } = [];

    public float[] Hand { get; set; } = [];

    /// <summary>Position in the visual classes (ML.NET turns it into a key itself). Read in training only.</summary>
    [KeyType(CellMap.Classes)]
    public uint Label { get; set; }

    public static PhotoRow From(PhotoFeatures features, int classIndex = -1) => new()
    {
        Mean = features.Mean,
        Peak = features.Peak,
        Answer = features.Answer,
        CellPeaks = CellMap.Of(features.Cells).LogPeaks(),
        Hand = features.Hand,
        Label = (uint)Math.Max(classIndex, 0),
    };

    /// <summary>The columns' lengths, which the model must know before the first row.</summary>
    public static SchemaDefinition Schema(int handLength)
    {
        var schema = SchemaDefinition.Create(typeof(PhotoRow));
        schema[nameof(Mean)].ColumnType = Vector(NetworkPipeline.FeatureLength);
        schema[nameof(Peak)].ColumnType = Vector(NetworkPipeline.FeatureLength);
        schema[nameof(Answer)].ColumnType = Vector(CellMap.Classes);
        schema[nameof(CellPeaks)].ColumnType = Vector(CellMap.Classes);
        schema[nameof(Hand)].ColumnType = Vector(handLength);
        return schema;
    }

    private static VectorDataViewType Vector(int length) => new(NumberDataViewType.Single, length);
}
