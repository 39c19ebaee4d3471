using System.Globalization;
using CoatScan.Findings;
using CoatScan.Metrics;
using Microsoft.ML;

namespace CoatScan.Classification;

/// <summary>Says what a photo of a painted panel shows, how probable that is, and where. Thread safe.</summary>
public sealed class VisualClassifier : IDisposable
{
    // A class less probable than this is not worth a region.
    private const double RegionProbability = 0.1;

    private readonly FeatureExtractor _features;
    private readonly ModelFolder _model;
    private readonly EnginePool<DecisionEngine> _pool;

    private VisualClassifier(FeatureExtractor features, ModelFolder model, MLContext context)
    {
        _features = features;
        _model = model;
        _pool = new EnginePool<DecisionEngine>(
            Environment.ProcessorCount,
            () => new DecisionEngine(context, model.PhotoModel, model.Calibration.PhotoModelShare));
        Info = new ClassifierInfo(
            model.Card.Version,
            model.Card.Sha256,
            model.Card.Classes,
            model.Card.Classes.Zip(model.Card.PriorShares).ToDictionary(pair => pair.First, pair => pair.Second),
            model.Card.Lambda,
            model.Calibration.SetCoverage,
            model.Card.Classes.Zip(model.Card.Checks).ToDictionary(pair => pair.First, pair => pair.Second));
    }

    /// <summary>Where the model and its numbers come from.</summary>
    public ClassifierInfo Info { get; }

    /// <summary>Loads the model that lies beside the program.</summary>
    /// <exception cref="InvalidDataException">As for <see cref="Load(string)"/>.</exception>
    public static VisualClassifier Load() => Load(Path.Combine(AppContext.BaseDirectory, "models", "classifier"));

    /// <summary>Loads a model.</summary>
    /// <param name="folder">Folder with the model's parts and card.</param>
    /// <exception cref="InvalidDataException">
    /// A part is missing, its digest is not the card's, or it was trained for another class list or network.
    /// </exception>
    public static VisualClassifier Load(string folder)
    {
        ArgumentException.ThrowIfNullOrEmpty(folder);
        var context = new MLContext(seed: 1);
        var model = ModelFolder.Load(context, folder);
        return new VisualClassifier(
            new FeatureExtractor(Path.Combine(folder, ModelFiles.Network)), model, context);
    }

    /// <summary>Looks at one photo.</summary>
    /// <param name="planes">The normalized panel.</param>
    /// <param name="cancellationToken">Checked before the network runs.</param>
    /// <returns>Equal planes give equal readings, on any thread.</returns>
    /// <exception cref="OperationCanceledException">The caller gave up.</exception>
    public VisualReading Classify(PanelPlanes planes, CancellationToken cancellationToken)
    {
        var features = _features.Extract(planes, cancellationToken);
        return _pool.Use(engine => Read(engine, features, planes), cancellationToken);
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        _pool.Dispose();
        _features.Dispose();
    }

    private VisualReading Read(DecisionEngine engine, PhotoFeatures features, PanelPlanes planes)
    {
        var score = engine.Photo(features);
        var calibration = _model.Calibration;
        var probabilities = calibration.Calibrate(score.Score);
        var distance = calibration.Distance(score.Position);
        var cells = CellMap.Of(features.Cells);
        var notAPanel = probabilities[VisualClasses.IndexOf(VisualClasses.NotAPanel)];
        var possible = ConformalSet.Of(probabilities, calibration.SetCutoff);
        var second = calibration.Second.Find(cells, probabilities);
        var isPanel = notAPanel < calibration.NotAPanelThreshold && distance < calibration.ForeignDistance;
        return new VisualReading
        {
            Shares = [.. Enumerable.Range(0, probabilities.Length)
                .Select(index => Share(index, probabilities[index], cells, second, planes) with { Possible = possible[index] })
                .OrderByDescending(share => share.Probability)
                .ThenBy(share => VisualClasses.IndexOf(share.VisualClass))],
            IsPanel = isPanel,
            Familiar = distance <= calibration.FamiliarDistance,
            Doubt = Doubt(isPanel, notAPanel, distance),
        };
    }

    private VisualClassShare Share(
        int index, double probability, CellMap cells, (int ClassIndex, double Probability)? second, PanelPlanes planes)
    {
        var marked = new bool[CellMap.Count];
        var isSecond = second?.ClassIndex == index;
        if (VisualClasses.IsFault(index) && (probability >= RegionProbability || isSecond))
        {
            for (var i = 0; i < marked.Length; i++)
            {
                marked[i] = cells.Against(index, i) >= _model.Calibration.CellThreshold;
            }
        }

        return new VisualClassShare
        {
            VisualClass = VisualClasses.All[index],
            Probability = probability,
            BesideProbability = isSecond ? second!.Value.Probability : null,
            Check = Info.Checks[VisualClasses.All[index]],
            Regions = RegionFinder.Frame(marked, planes),
            AreaFraction = marked.Count(flag => flag) / (double)marked.Length,
        };
    }

    private string? Doubt(bool isPanel, double notAPanel, double distance)
    {
        var calibration = _model.Calibration;
        if (notAPanel >= calibration.NotAPanelThreshold)
        {
            return string.Create(
                CultureInfo.InvariantCulture,
                $"The photo {(notAPanel >= 0.5 ? "shows" : "may show")} no painted panel (probability {notAPanel:0.00}, judged below {calibration.NotAPanelThreshold:0.00}).");
        }

        if (isPanel && distance <= calibration.FamiliarDistance)
        {
            return null;
        }

        return string.Create(
            CultureInfo.InvariantCulture,
            $"The photo is unlike the pictures the classifier was trained on (distance {distance:0.00}, familiar up to "
            + $"{calibration.FamiliarDistance:0.00}).");
    }
}
