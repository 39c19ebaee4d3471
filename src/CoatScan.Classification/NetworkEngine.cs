using Microsoft.ML;
using Microsoft.ML.Data;

namespace CoatScan.Classification;

/// <summary>One lane through the network; not thread safe.</summary>
internal sealed class NetworkEngine : IDisposable
{
    private readonly PredictionEngine<NetworkInput, NetworkOutput> _engine;

    public NetworkEngine(MLContext context, ITransformer pipeline)
    {
        // The pipeline is shared by all lanes and outlives each of them.
        _engine = context.Model.CreatePredictionEngine<NetworkInput, NetworkOutput>(
            pipeline, new PredictionEngineOptions { OwnsTransformer = false });
    }

    /// <param name="view">Picture as <see cref="NetworkView"/> makes it.</param>
    public NetworkOutput Run(byte[] view)
    {
        using var image = MLImage.CreateFromPixels(NetworkView.SidePx, NetworkView.SidePx, MLPixelFormat.Rgba32, view);
        return _engine.Predict(new NetworkInput { Image = image });
    }

    public void Dispose() => _engine.Dispose();
}
