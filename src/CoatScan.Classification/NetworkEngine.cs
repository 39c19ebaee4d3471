using Microsoft.ML;
using Microsoft.ML.Data;

namespace CoatScan.Classification;

/// <summary>One lane through the network for pictures of one size; not thread safe.</summary>
internal sealed class NetworkEngine : IDisposable
{
    private readonly PredictionEngine<NetworkInput, NetworkOutput> _engine;
    private readonly int _sidePx;

    /// <param name="context">Of the classifier.</param>
    /// <param name="pipeline">As <see cref="NetworkPipeline"/> builds it.</param>
    /// <param name="sidePx">Side of the pictures it was built for, pixels.</param>
    public NetworkEngine(MLContext context, ITransformer pipeline, int sidePx)
    {
        _sidePx = sidePx;

        // The pipeline is shared by all lanes and outlives each of them.
        _engine = context.Model.CreatePredictionEngine<NetworkInput, NetworkOutput>(
            pipeline,
            new PredictionEngineOptions { OwnsTransformer = false, InputSchemaDefinition = NetworkInput.Schema(sidePx) });
    }

    /// <param name="view">Picture as <see cref="NetworkView"/> makes it.</param>
    public NetworkOutput Run(byte[] view)
    {
        using var image = MLImage.CreateFromPixels(_sidePx, _sidePx, MLPixelFormat.Rgba32, view);
        return _engine.Predict(new NetworkInput { Image = image });
    }

    public void Dispose() => _engine.Dispose();
}
