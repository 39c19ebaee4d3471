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
    /// <param name="shop">A shop's own photos to learn from; null for none.</param>
    /// <exception cref="InvalidDataException">The shop's photos made the model worse; nothing was written.</exception>
    public EvaluationReport Run(
        string folder, string version, IReadOnlyList<Sample> real, LabelMap labels, string? realCredit, ShopLesson? shop = null)
    {
        var training = source.Get(plan.Training);
        IReadOnlyList<Sample>[] kinds = [.. plan.Calibration.Select(source.Get)];
        Sample[] calibrating = [.. kinds.SelectMany(kind => kind)];
        var ordinary = source.Get(plan.HeldOutOrdinary);
        var harsh = source.Get(plan.HeldOutHarsh);
        var shifted = source.Get(plan.HeldOutShifted);
        var twoFaults = source.Get(plan.HeldOutTwoFaults);
        var shares = ClassShares.Expected;
        var logShift = ClassShares.Of(training).LogShiftTo(shares);

        log.WriteLine("training the photo model");
        var weight = shop?.Weight(training.Count) ?? 1;
        var photoModel = PhotoModelTrainer.Train(_context, training, FeatureGroups.Shipped, plan.PhotoL2, shop?.Training, weight);
        var (calibration, scaling) = CalibrationFit.Fit(
            _context, photoModel, training, kinds, source.Get(plan.TwoFaults), logShift, shop is null ? AnswerMean.UsualShare : ShopLesson.PhotoModelShare);
        var shopReport = shop?.Check(_context, photoModel, calibration, weight, ordinary);

        SetReport Evaluate(string name, IReadOnlyList<Sample> samples, ClassShares? even) => Evaluator.Evaluate(
            name, samples, Scores(photoModel, calibration, samples), calibration, even);
        var rendered = Evaluate("rendered, held out, ordinary camera", ordinary, shares);
        var realReport = real.Count == 0
            ? null
            : Evaluator.Evaluate("real, labelled by eye", real, Scores(photoModel, calibration, real), calibration, labels: labels);
        var lambda = Lambda(photoModel, calibration, harsh, shares);
        var card = new ModelCard
        {
            Version = version,
            Sha256 = "",
            NetworkSha256 = "",
            Classes = [.. VisualClasses.All],
            PriorShares = [.. shares.Values],
            Lambda = lambda,
            Checks = [.. ClassChecks.Of(rendered, realReport, labels)],
        };
        var saved = ModelFolder.Save(
            _context,
            folder,
            new ModelFolder { Card = card, Calibration = calibration, PhotoModel = photoModel });
        return new EvaluationReport
        {
            ModelVersion = version,
            ModelSha256 = saved.Sha256,
            TrainingPhotos = training.Count,
            Scaling = ScalingRows(photoModel, calibration, scaling, ordinary, harsh, shifted, real, labels),
            Lambda = lambda,
            Rendered = rendered,
            RenderedHarsh = Evaluate("rendered, held out, harsh camera (trained on too)", harsh, shares),
            RenderedShifted = Evaluate("rendered, shifted: paints, lights, cameras and things never trained on", shifted, shares),
            SecondFault = SecondFaults(photoModel, calibration, [.. ordinary, .. twoFaults]),
            CellF1 = CalibrationFit.CellF1(CalibrationFit.CellShares([.. ordinary, .. harsh]), calibration.CellThreshold),
            Real = realReport,
            RealCredit = realCredit,
            Shop = shopReport,
            Ablation = plan.Compares
                ? new AblationRun(_context, plan, log).Run(training, calibrating, [.. ordinary, .. harsh], real, labels)
                : [],
        };
    }

    private IReadOnlyList<PhotoScore> Scores(ITransformer photoModel, Calibration calibration, IReadOnlyList<Sample> samples) =>
        PhotoModelTrainer.MeanScore(_context, photoModel, samples, calibration.PhotoModelShare);

    private SecondFaultReport SecondFaults(ITransformer photoModel, Calibration calibration, IReadOnlyList<Sample> samples)
    {
        var report = SecondFaultFit.Judge(
            calibration.Second, samples, [.. Scores(photoModel, calibration, samples).Select(score => calibration.Calibrate(score.Score))]);
        return report with { CellF1 = report.Cells.Count == 0 ? null : CalibrationFit.CellF1(report.Cells, calibration.CellThreshold) };
    }

    private ScalingReport ScalingRows(
        ITransformer photoModel,
        Calibration calibration,
        ScalingChoice choice,
        IReadOnlyList<Sample> ordinary,
        IReadOnlyList<Sample> harsh,
        IReadOnlyList<Sample> shifted,
        IReadOnlyList<Sample> real,
        LabelMap labels)
    {
        double Ece(IReadOnlyList<Sample> samples, VectorScaling scaling, bool isReal) => Evaluator.Evaluate(
            "", samples, Scores(photoModel, calibration, samples), calibration with { Scale = scaling.Scale, Offset = scaling.Offset },
            isReal ? null : ClassShares.Expected, isReal ? labels : null).Ece10.Value;
        ScalingRow Row(string name, IReadOnlyList<Sample> samples, bool isReal = false) => new(
            name, Ece(samples, VectorScaling.Same(1), isReal), Ece(samples, VectorScaling.Same(1 / choice.Temperature), isReal),
            Ece(samples, choice.Vector, isReal));
        ScalingRow[] rows =
        [
            Row("rendered, ordinary camera", ordinary), Row("rendered, harsh camera", harsh), Row("rendered, shifted", shifted),
            .. real.Count == 0 ? Array.Empty<ScalingRow>() : [Row("real", real, isReal: true)],
        ];
        return new ScalingReport(
            choice.IsVector ? "vector" : "temperature", choice.Temperature, choice.TemperatureLogLoss, choice.VectorLogLoss, rows);
    }

    // The harsh camera stands for the shift that every real photo brings: there the photo may count less.
    private double Lambda(
        ITransformer photoModel, Calibration calibration, IReadOnlyList<Sample> harsh, ClassShares shares) =>
        ScaleFit.Lambda(
            [.. Scores(photoModel, calibration, harsh).Select(score => shares.Even(calibration.Calibrate(score.Score)))],
            [.. harsh.Select(sample => sample.ClassIndex)]);
}
