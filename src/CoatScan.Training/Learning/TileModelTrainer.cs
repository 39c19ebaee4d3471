using CoatScan.Classification;
using Microsoft.ML;
using Microsoft.ML.Trainers;

namespace CoatScan.Training.Learning;

/// <summary>The same kind of model for single tiles, labelled by the known mask of what was rendered.</summary>
internal static class TileModelTrainer
{
    private const string Features = "Features";

    public static ITransformer Train(MLContext context, IReadOnlyList<Sample> samples, float l2)
    {
        var data = context.Data.LoadFromEnumerable(Rows(samples));
        var pipeline = context.Transforms.Concatenate(Features, nameof(TileRow.Tile), nameof(TileRow.Whole))
            .Append(context.Transforms.NormalizeMeanVariance(Features, fixZero: false))
            .AppendCacheCheckpoint(context)
            .Append(context.MulticlassClassification.Trainers.LbfgsMaximumEntropy(
                new LbfgsMaximumEntropyMulticlassTrainer.Options
                {
                    FeatureColumnName = Features,
                    LabelColumnName = nameof(TileRow.Label),
                    L1Regularization = 0,
                    L2Regularization = l2,
                    MaximumNumberOfIterations = 100,
                    NumberOfThreads = 1,
                }));
        return pipeline.Fit(data);
    }

    /// <summary>Rows of all tiles whose label the mask decides.</summary>
    public static IEnumerable<TileRow> Rows(IReadOnlyList<Sample> samples)
    {
        foreach (var sample in samples)
        {
            for (var tile = 0; tile < sample.TileLabels.Length; tile++)
            {
                if (sample.TileLabels[tile] >= 0)
                {
                    yield return new TileRow
                    {
                        Tile = sample.Features.Tiles[tile],
                        Whole = sample.Features.Whole,
                        Label = (uint)sample.TileLabels[tile],
                    };
                }
            }
        }
    }
}
