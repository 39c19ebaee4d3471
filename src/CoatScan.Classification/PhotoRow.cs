using Microsoft.ML.Data;

namespace CoatScan.Classification;

/// <summary>One photo as the photo model reads it.</summary>
internal sealed class PhotoRow
{
    public float[] Whole { get; set; } = [];

    public float[] TileMean { get; set; } = [];

    public float[] TileMax { get; set; } = [];

    public float[] Hand { get; set; } = [];

    /// <summary>Position in the visual classes (ML.NET turns it into a key itself). Read in training only.</summary>
    [KeyType(16)]
    public uint Label { get; set; }

    public static PhotoRow From(PhotoFeatures features, int classIndex = -1) => new()
    {
        Whole = features.Whole,
        TileMean = features.TileMean(),
        TileMax = features.TileMax(),
        Hand = features.Hand,
        Label = (uint)Math.Max(classIndex, 0),
    };

    /// <summary>The columns' lengths, which the model must know before the first row.</summary>
    public static SchemaDefinition Schema(int handLength)
    {
        var schema = SchemaDefinition.Create(typeof(PhotoRow));
        schema[nameof(Whole)].ColumnType = Vector(DeepPipeline.Length);
        schema[nameof(TileMean)].ColumnType = Vector(DeepPipeline.Length);
        schema[nameof(TileMax)].ColumnType = Vector(DeepPipeline.Length);
        schema[nameof(Hand)].ColumnType = Vector(handLength);
        return schema;
    }

    private static VectorDataViewType Vector(int length) => new(NumberDataViewType.Single, length);
}
