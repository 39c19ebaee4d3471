using Microsoft.ML;

namespace CoatScan.Classification;

/// <summary>One lane through the photo model; not thread safe.</summary>
internal sealed class DecisionEngine : IDisposable
{
    private readonly PredictionEngine<PhotoRow, PhotoScore> _photo;

    private readonly double _share;

    /// <param name="context">Carries the seed.</param>
    /// <param name="photoModel">The photo model.</param>
    /// <param name="share">How much it counts beside the network, 0 to 1.</param>
    public DecisionEngine(MLContext context, ITransformer photoModel, double share)
    {
        _share = share;
        _photo = context.Model.CreatePredictionEngine<PhotoRow, PhotoScore>(
            photoModel,
            new PredictionEngineOptions
            {
                OwnsTransformer = false,
                InputSchemaDefinition = PhotoRow.Schema(),
            });
    }

    public PhotoScore Photo(PhotoFeatures features)
    {
        var score = _photo.Predict(PhotoRow.From(features));
        score.Score = AnswerMean.Of(score.Score, features, _share);
        return score;
    }

    public void Dispose() => _photo.Dispose();
}
