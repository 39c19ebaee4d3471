using Microsoft.ML;

namespace CoatScan.Classification;

/// <summary>One lane through the photo and the tile model; not thread safe.</summary>
internal sealed class DecisionEngine : IDisposable
{
    private readonly PredictionEngine<PhotoRow, PhotoScore> _photo;
    private readonly PredictionEngine<TileRow, TileScore> _tile;

    public DecisionEngine(MLContext context, ITransformer photoModel, ITransformer tileModel, int handLength)
    {
        _photo = context.Model.CreatePredictionEngine<PhotoRow, PhotoScore>(
            photoModel,
            new PredictionEngineOptions
            {
                OwnsTransformer = false,
                InputSchemaDefinition = PhotoRow.Schema(handLength),
            });
        _tile = context.Model.CreatePredictionEngine<TileRow, TileScore>(
            tileModel, new PredictionEngineOptions { OwnsTransformer = false });
    }

    public PhotoScore Photo(PhotoFeatures features) => _photo.Predict(PhotoRow.From(features));

    public float[] Tile(PhotoFeatures features, int tile) =>
        _tile.Predict(new TileRow { Tile = features.Tiles[tile], Whole = features.Whole }).Score;

    public void Dispose()
    {
        _photo.Dispose();
        _tile.Dispose();
    }
}
