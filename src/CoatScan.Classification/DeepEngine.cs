using Microsoft.ML;

namespace CoatScan.Classification;

/// <summary>One lane through the network; not thread safe.</summary>
internal sealed class DeepEngine : IDisposable
{
    private readonly PredictionEngine<TileImage, TileVector> _engine;

    public DeepEngine(MLContext context, ITransformer pipeline)
    {
        // The pipeline is shared by all lanes and outlives each of them.
        _engine = context.Model.CreatePredictionEngine<TileImage, TileVector>(
            pipeline, new PredictionEngineOptions { OwnsTransformer = false });
    }

    public float[] Run(PanelBitmap bitmap, TileBox box)
    {
        using var image = bitmap.Crop(box);
        return _engine.Predict(new TileImage { Image = image }).Values;
    }

    public void Dispose() => _engine.Dispose();
}
