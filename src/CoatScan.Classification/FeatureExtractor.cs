using CoatScan.Metrics;
using Microsoft.ML;

namespace CoatScan.Classification;

/// <summary>Turns planes into the numbers that the classifier learns from. Thread safe.</summary>
public sealed class FeatureExtractor : IDisposable
{
    private readonly Look _large;
    private readonly Look _small;

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
        _large = new Look(context, networkPath, NetworkView.SidePx);
        _small = new Look(context, networkPath, NetworkView.SmallSidePx);
    }

    /// <summary>Looks at a photo.</summary>
    /// <param name="planes">The normalized panel.</param>
    /// <param name="cancellationToken">Checked before each of the network's two runs.</param>
    /// <exception cref="OperationCanceledException">The caller gave up.</exception>
    public PhotoFeatures Extract(PanelPlanes planes, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(planes);
        var large = NetworkView.Of(planes, NetworkView.SidePx);
        var small = NetworkView.Mirror(NetworkView.Of(planes, NetworkView.SmallSidePx), NetworkView.SmallSidePx);
        cancellationToken.ThrowIfCancellationRequested();
        var said = _large.Run(large, cancellationToken);
        cancellationToken.ThrowIfCancellationRequested();
        return LookMean.Of(said, _small.Run(small, cancellationToken));
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        _large.Dispose();
        _small.Dispose();
    }

    // The network for pictures of one size.
    private sealed class Look : IDisposable
    {
        private readonly ITransformer _pipeline;
        private readonly EnginePool<NetworkEngine> _pool;

        public Look(MLContext context, string networkPath, int sidePx)
        {
            _pipeline = NetworkPipeline.Build(context, networkPath, sidePx);
            _pool = new EnginePool<NetworkEngine>(
                Environment.ProcessorCount, () => new NetworkEngine(context, _pipeline, sidePx));
        }

        public NetworkOutput Run(byte[] view, CancellationToken cancellationToken) =>
            _pool.Use(engine => engine.Run(view), cancellationToken);

        public void Dispose()
        {
            _pool.Dispose();
            (_pipeline as IDisposable)?.Dispose();
        }
    }
}
