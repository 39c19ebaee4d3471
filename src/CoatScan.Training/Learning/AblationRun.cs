using CoatScan.Classification;
using CoatScan.Training.Evaluation;
using CoatScan.Training.Reporting;
using Microsoft.ML;

namespace CoatScan.Training.Learning;

/// <summary>Compares what a photo model may read, all else equal, so that nothing is in the model that earns nothing.</summary>
internal sealed class AblationRun(MLContext context, TrainingPlan plan, TextWriter log)
{
    // How much the photo model counts, and how much the cells in the network's own answer.
    private static readonly (double Photo, double Cells)[] Compared =
    [
        (0.5, AnswerMean.CellShare), (0.25, AnswerMean.CellShare), (AnswerMean.UsualShare, AnswerMean.CellShare), (0, AnswerMean.CellShare),
        (AnswerMean.UsualShare, 0), (AnswerMean.UsualShare, 2 * AnswerMean.CellShare),
    ];

    public IReadOnlyList<AblationRow> Run(
        IReadOnlyList<Sample> training,
        IReadOnlyList<Sample> calibrating,
        IReadOnlyList<Sample> held,
        IReadOnlyList<Sample> real,
        LabelMap labels)
    {
        var logShift = ClassShares.Of(training).LogShiftTo(ClassShares.Expected);
        var rows = new List<AblationRow>();
        foreach (var groups in FeatureGroups.Compared)
        {
            log.WriteLine($"ablation: {groups.Name}");
            var model = PhotoModelTrainer.Train(context, training, groups, plan.PhotoL2);
            rows.Add(Row(groups.Name, samples => PhotoModelTrainer.Score(context, model, samples), calibrating, logShift, held, real, labels));
        }

        var shipped = PhotoModelTrainer.Train(context, training, FeatureGroups.Shipped, plan.PhotoL2);
        foreach (var (share, cells) in Compared)
        {
            log.WriteLine(ReportText.Invariant($"ablation: photo model for {share:0.##}, network for the rest, its cells for {cells:0.##} of that"));
            var network = ReportText.Invariant($"the network's own answer (cells counted {cells:0.##} in it)");
            var name = share == 0
                ? $"{network} alone, no photo model"
                : ReportText.Invariant($"mean of the photo model (counted {share:0.##}) and {network}");
            rows.Add(Row(
                share == AnswerMean.UsualShare && cells == AnswerMean.CellShare ? name + " (shipped)" : name,
                samples => PhotoModelTrainer.MeanScore(context, shipped, samples, share, cells), calibrating, logShift, held, real, labels));
        }

        return rows;
    }

    private static AblationRow Row(
        string name,
        Func<IReadOnlyList<Sample>, IReadOnlyList<PhotoScore>> score,
        IReadOnlyList<Sample> calibrating,
        double[] logShift,
        IReadOnlyList<Sample> held,
        IReadOnlyList<Sample> real,
        LabelMap labels)
    {
        var temperature = ScaleFit.Temperature(
            [.. score(calibrating).Select(row => row.Score)], [.. calibrating.Select(sample => sample.ClassIndex)]);
        var calibration = Calibration.TemperatureOnly(temperature, logShift, PhotoModelTrainer.PositionRank);
        var rendered = Evaluator.Evaluate(name, held, score(held), calibration, ClassShares.Expected);
        var found = real.Count == 0 ? null : Evaluator.Evaluate(name, real, score(real), calibration, labels: labels);
        return new AblationRow(
            name,
            rendered.MacroF1.Value,
            rendered.Ece10.Value,
            found?.MacroF1.Value,
            found?.MacroF1AmongOccurring,
            found?.Ece10.Value);
    }
}
