using CoatScan.Metrics;
using Microsoft.ML;

namespace CoatScan.Classification;

/// <summary>Turns planes into the numbers that the classifier learns from. Thread safe.</summary>
public sealed class FeatureExtractor : IDisposable
{
    private readonly ITransformer _pipeline;
    private readonly EnginePool<DeepEngine> _pool;

    /// <summary>Loads the network that the package puts beside the program.</summary>
    /// <exception cref="InvalidDataException">The network's files are missing.</exception>
    public FeatureExtractor()
    {
        foreach (var file in new[] { NetworkPath, DeepPipeline.MeanPath(AppContext.BaseDirectory) })
        {
            if (!File.Exists(file))
            {
                throw new InvalidDataException(
                    $"The packaged network '{Path.GetFileName(file)}' is missing beside the program; restore and build again.");
            }
        }

        var context = new MLContext(seed: 1);
        _pipeline = DeepPipeline.Build(context, AppContext.BaseDirectory);
        _pool = new EnginePool<DeepEngine>(Environment.ProcessorCount, () => new DeepEngine(context, _pipeline));
    }

    /// <summary>Where the package puts the network.</summary>
    internal static string NetworkPath => DeepPipeline.NetworkPath(AppContext.BaseDirectory);

    /// <summary>Looks at a photo as a whole and tile by tile.</summary>
    /// <param name="planes">The normalized panel.</param>
    /// <param name="measurements">What was measured on it.</param>
    /// <param name="cancellationToken">Checked before every pass of the network.</param>
    /// <exception cref="OperationCanceledException">The caller gave up.</exception>
    public PhotoFeatures Extract(
        PanelPlanes planes, PanelMeasurements measurements, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(planes);
        ArgumentNullException.ThrowIfNull(measurements);
        return Extract(planes, measurements.Features, cancellationToken);
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        _pool.Dispose();
        (_pipeline as IDisposable)?.Dispose();
    }

    /// <summary>The same with the hand-made features alone, for training, which needs no other measurement.</summary>
    internal PhotoFeatures Extract(
        PanelPlanes planes, IReadOnlyList<float> handMade, CancellationToken cancellationToken)
    {
        var bitmap = new PanelBitmap(planes);
        var boxes = TileGrid.Tiles(bitmap.Width, bitmap.Height);
        return _pool.Use(
            engine =>
            {
                var tiles = new float[boxes.Count][];
                for (var i = 0; i < boxes.Count; i++)
                {
                    cancellationToken.ThrowIfCancellationRequested();
                    tiles[i] = engine.Run(bitmap, boxes[i]);
                }

                cancellationToken.ThrowIfCancellationRequested();
                return new PhotoFeatures
                {
                    Whole = engine.Run(bitmap, new TileBox(0, 0, bitmap.Width, bitmap.Height)),
                    Tiles = tiles,
                    Hand = [.. handMade],
                };
            },
            cancellationToken);
    }
}
