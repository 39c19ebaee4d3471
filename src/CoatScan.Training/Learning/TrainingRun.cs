using CoatScan.Classification;
using CoatScan.Training.Evaluation;
using Microsoft.ML;

namespace CoatScan.Training.Learning;

/// <summary>Samples to a model that is written, and a report of how good it is.</summary>
internal sealed class TrainingRun(TrainingPlan plan, SampleSource source, TextWriter log)
{
    private const int Seed = 1;

    private readonly MLContext _context = new(Seed);

    /// <param name="folder">Where the model goes.</param>
    /// <param name="version">Version of the model.</param>
    /// <param name="real">Labelled real photos to report on; empty for none.</param>
    /// <param name="labels">Which visual classes answer to the real photos' labels.</param>
    /// <param name="realCredit">Where they come from.</param>
    public EvaluationReport Run(
        string folder, string version, IReadOnlyList<Sample> real, LabelMap labels, string? realCredit)
    {
        var training = source.Get(plan.Training);
        var calibrating = source.Get(plan.Calibration);
        var ordinary = source.Get(plan.HeldOutOrdinary);
        var harsh = source.Get(plan.HeldOutHarsh);
        Sample[] held = [.. ordinary, .. harsh];

        log.WriteLine("training the photo model");
        var photoModel = PhotoModelTrainer.Train(_context, training, FeatureGroups.Shipped, plan.PhotoL2);
        var shares = ClassShares.Expected;
        var logShift = ClassShares.Of(training).LogShiftTo(shares);
        var calibration = CalibrationFit.Fit(_context, photoModel, training, calibrating, logShift);
        var lambda = Lambda(photoModel, calibration, harsh, shares);
        var card = new ModelCard
        {
            Version = version,
            Sha256 = "",
            NetworkSha256 = "",
            Classes = [.. VisualClasses.All],
            PriorShares = [.. shares.Values],
            Lambda = lambda,
        };
        var saved = ModelFolder.Save(
            _context,
            folder,
            new ModelFolder { Card = card, Calibration = calibration, PhotoModel = photoModel });

        SetReport Evaluate(string name, IReadOnlyList<Sample> samples, ClassShares? even) => Evaluator.Evaluate(
            name, samples, PhotoModelTrainer.MeanScore(_context, photoModel, samples), calibration, even);
        return new EvaluationReport
        {
            ModelVersion = version,
            ModelSha256 = saved.Sha256,
            TrainingPhotos = training.Count,
            Temperature = calibration.Temperature,
            Lambda = lambda,
            Rendered = Evaluate("rendered, held out, ordinary and harsh camera", held, shares),
            RenderedAsExpected = Evaluate("rendered, held out, at the expected shares", held, null),
            RenderedOrdinary = Evaluate("rendered, held out, ordinary camera", ordinary, shares),
            RenderedHarsh = Evaluate("rendered, held out, harsh camera", harsh, shares),
            CellF1 = CalibrationFit.CellF1(CalibrationFit.CellShares(held), calibration.CellThreshold),
            Real = real.Count == 0
                ? null
                : Evaluator.Evaluate(
                    "real, labelled by eye", real, PhotoModelTrainer.MeanScore(_context, photoModel, real), calibration, labels: labels),
            RealCredit = realCredit,
            Ablation = new AblationRun(_context, plan, log).Run(training, calibrating, held, real, labels),
        };
    }

    // The harsh camera stands for the shift that every real photo brings: there the photo may count less.
    private double Lambda(
        ITransformer photoModel, Calibration calibration, IReadOnlyList<Sample> harsh, ClassShares shares) =>
        ScaleFit.Lambda(
            [.. PhotoModelTrainer.MeanScore(_context, photoModel, harsh)
                .Select(score => shares.Even(calibration.Calibrate(score.Score)))],
            [.. harsh.Select(sample => sample.ClassIndex)]);
}
