using CoatScan.Classification;
using Microsoft.ML.Data;

namespace CoatScan.Training.Learning;

/// <summary>One photo as a photo model may read it in training: also columns that the shipped one does not need.</summary>
internal sealed class TrainingRow
{
    public float[] Mean { get; set; } = [];

    public float[] Peak { get; set; } = [];

    public float[] Answer { get; set; } = [];

    public float[] CellPeaks { get; set; } = [];

    public float[] Measured { get; set; } = [];

    /// <summary>What the photo counts, a rendered panel being 1.</summary>
    public float Weight { get; set; } = 1;

    /// <summary>Position in the visual classes (ML.NET turns it into a key itself).</summary>
    [KeyType(CellMap.Classes)]
    public uint Label { get; set; }

    public static TrainingRow From(Sample sample, float weight = 1) => new()
    {
        Mean = sample.Features.Mean,
        Peak = sample.Features.Peak,
        Answer = sample.Features.Answer,
        CellPeaks = CellMap.Of(sample.Features.Cells).LogPeaks(),
        Measured = sample.Measured,
        Weight = weight,
        Label = (uint)sample.ClassIndex,
    };

    /// <summary>The columns' lengths, which the model must know before the first row.</summary>
    public static SchemaDefinition Schema(int measuredLength)
    {
        var schema = SchemaDefinition.Create(typeof(TrainingRow));
        schema[nameof(Mean)].ColumnType = Vector(NetworkPipeline.FeatureLength);
        schema[nameof(Peak)].ColumnType = Vector(NetworkPipeline.FeatureLength);
        schema[nameof(Answer)].ColumnType = Vector(CellMap.Classes);
        schema[nameof(CellPeaks)].ColumnType = Vector(CellMap.Classes);
        schema[nameof(Measured)].ColumnType = Vector(measuredLength);
        return schema;
    }

    private static VectorDataViewType Vector(int length) => new(NumberDataViewType.Single, length);
}
