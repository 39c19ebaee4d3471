using CoatScan.Metrics;
using Microsoft.ML;

namespace CoatScan.Classification;

/// <summary>Turns planes into the numbers that the classifier learns from. Thread safe.</summary>
public sealed class FeatureExtractor : IDisposable
{
    private readonly ITransformer _pipeline;
    private readonly EnginePool<NetworkEngine> _pool;

    /// <summary>Loads the panel network.</summary>
    /// <param name="networkPath">File of the network.</param>
    /// <exception cref="InvalidDataException">The file is missing.</exception>
    public FeatureExtractor(string networkPath)
    {
        ArgumentException.ThrowIfNullOrEmpty(networkPath);
        if (!File.Exists(networkPath))
        {
            throw new InvalidDataException($"The panel network '{networkPath}' is missing; restore it.");
        }

        var context = new MLContext(seed: 1);
        _pipeline = NetworkPipeline.Build(context, networkPath);
        _pool = new EnginePool<NetworkEngine>(
            Environment.ProcessorCount, () => new NetworkEngine(context, _pipeline));
    }

    /// <summary>Looks at a photo.</summary>
    /// <param name="planes">The normalized panel.</param>
    /// <param name="cancellationToken">Checked before each of the network's two runs.</param>
    /// <exception cref="OperationCanceledException">The caller gave up.</exception>
    public PhotoFeatures Extract(PanelPlanes planes, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(planes);
        var view = NetworkView.Of(planes);
        cancellationToken.ThrowIfCancellationRequested();
        return _pool.Use(
            engine =>
            {
                var plain = engine.Run(view);
                cancellationToken.ThrowIfCancellationRequested();
                return MirrorMean.Of(plain, engine.Run(NetworkView.Mirror(view)));
            },
            cancellationToken);
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        _pool.Dispose();
        (_pipeline as IDisposable)?.Dispose();
    }
}
