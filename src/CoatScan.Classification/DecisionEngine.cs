using Microsoft.ML;

namespace CoatScan.Classification;

/// <summary>One lane through the photo model; not thread safe.</summary>
internal sealed class DecisionEngine : IDisposable
{
    private readonly PredictionEngine<PhotoRow, PhotoScore> _photo;

    public DecisionEngine(MLContext context, ITransformer photoModel)
    {
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
        score.Score = AnswerMean.Of(score.Score, features.Answer);
        return score;
    }

    public void Dispose() => _photo.Dispose();
}
