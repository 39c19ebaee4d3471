using CoatScan.Classification;
using Microsoft.ML;
using Microsoft.ML.Trainers;

namespace CoatScan.Training.Learning;

/// <summary>Maximum entropy (multinomial logistic regression) over standardized features.</summary>
internal static class PhotoModelTrainer
{
    /// <summary>Principal components kept for the question whether a photo is like the training photos.</summary>
    public const int PositionRank = 32;

    private const string Features = "Features";

    private const string Place = "Place";

    /// <param name="context">Carries the seed.</param>
    /// <param name="samples">Training photos.</param>
    /// <param name="groups">Columns to read.</param>
    /// <param name="l2">Weight of the squared-weights penalty.</param>
    /// <param name="shop">A shop's own photos beside them.</param>
    /// <param name="shopWeight">What each of those counts, a training photo being 1.</param>
    public static ITransformer Train(
        MLContext context,
        IReadOnlyList<Sample> samples,
        FeatureGroups groups,
        float l2,
        IReadOnlyList<Sample>? shop = null,
        double shopWeight = 1)
    {
        var rows = samples.Select(sample => TrainingRow.From(sample))
            .Concat((shop ?? []).Select(sample => TrainingRow.From(sample, (float)shopWeight)));
        var data = context.Data.LoadFromEnumerable(rows, TrainingRow.Schema(samples[0].Measured.Length));
        var pipeline = context.Transforms.Concatenate(Features, [.. groups.Columns])
            .Append(context.Transforms.NormalizeMeanVariance(Features, fixZero: false))
            .Append(context.Transforms.NormalizeMeanVariance(Place, nameof(TrainingRow.Mean), fixZero: false))
            .Append(context.Transforms.ProjectToPrincipalComponents(
                nameof(PhotoScore.Position), Place, rank: PositionRank, seed: 1))
            .AppendCacheCheckpoint(context)
            .Append(context.MulticlassClassification.Trainers.LbfgsMaximumEntropy(
                new LbfgsMaximumEntropyMulticlassTrainer.Options
                {
                    FeatureColumnName = Features,
                    LabelColumnName = nameof(TrainingRow.Label),
                    ExampleWeightColumnName = nameof(TrainingRow.Weight),
                    L1Regularization = 0,
                    L2Regularization = l2,
                    MaximumNumberOfIterations = 400,
                    NumberOfThreads = 1,
                }));
        return pipeline.Fit(data);
    }

    /// <summary>What the shipped kind of model says about photos, averaged with the network's own answer as the product does it.</summary>
    public static IReadOnlyList<PhotoScore> MeanScore(
        MLContext context, ITransformer model, IReadOnlyList<Sample> samples, double share, double cellShare = AnswerMean.CellShare) =>
    [
        .. Score(context, model, samples).Zip(samples, (score, sample) => new PhotoScore
        {
            Score = AnswerMean.Of(score.Score, sample.Features, share, cellShare),
            Position = score.Position,
        }),
    ];

    /// <summary>What a model alone says about photos.</summary>
    public static IReadOnlyList<PhotoScore> Score(MLContext context, ITransformer model, IReadOnlyList<Sample> samples)
    {
        var scores = model.Transform(Load(context, samples));
        return [.. context.Data.CreateEnumerable<PhotoScore>(scores, reuseRowObject: false)];
    }

    private static IDataView Load(MLContext context, IReadOnlyList<Sample> samples) => context.Data.LoadFromEnumerable(
        samples.Select(sample => TrainingRow.From(sample)), TrainingRow.Schema(samples[0].Measured.Length));
}
