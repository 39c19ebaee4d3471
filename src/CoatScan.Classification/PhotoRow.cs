using Microsoft.ML.Data;

namespace CoatScan.Classification;

/// <summary>One photo as the photo model reads it.</summary>
internal sealed class PhotoRow
{
    public float[] Mean { get; set; } = [];

    public float[] Answer { get; set; } = [];

    public static PhotoRow From(PhotoFeatures features) => new() { Mean = features.Mean, Answer = features.Answer };

    /// <summary>The columns' lengths, which the model must know before the first row.</summary>
    public static SchemaDefinition Schema()
    {
        var schema = SchemaDefinition.Create(typeof(PhotoRow));
        schema[nameof(Mean)].ColumnType = Vector(NetworkPipeline.FeatureLength);
        schema[nameof(Answer)].ColumnType = Vector(CellMap.Classes);
        return schema;
    }

    private static VectorDataViewType Vector(int length) => new(NumberDataViewType.Single, length);
}
