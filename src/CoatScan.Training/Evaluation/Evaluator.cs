using CoatScan.Classification;
using CoatScan.Training.Learning;

namespace CoatScan.Training.Evaluation;

/// <summary>Scores a classifier's answers against what is known.</summary>
internal static class Evaluator
{
    private const int TopCount = 3;

    /// <param name="name">What the photos are.</param>
    /// <param name="samples">The photos.</param>
    /// <param name="scores">What the photo model says of each.</param>
    /// <param name="calibration">Fitted elsewhere.</param>
    /// <param name="even">
    /// Given for sets in which all classes are as frequent: probabilities are turned to equal shares first. Null where the
    /// shares are not known, as in real photos.
    /// </param>
    /// <param name="labels">Which classes answer to the photos' labels; null where every label is a class.</param>
    public static SetReport Evaluate(
        string name,
        IReadOnlyList<Sample> samples,
        IReadOnlyList<PhotoScore> scores,
        Calibration calibration,
        ClassShares? even = null,
        LabelMap? labels = null)
    {
        labels ??= new LabelMap(new Dictionary<string, string>());
        var notAPanel = VisualClasses.IndexOf(VisualClasses.NotAPanel);
        var truth = samples.Select(sample => sample.ClassIndex).ToArray();
        var asGiven = scores.Select(score => calibration.Calibrate(score.Score)).ToArray();
        var probabilities = (even is null ? asGiven : asGiven.Select(even.Even)).Select(labels.Merge).ToArray();
        var distances = scores.Select(score => calibration.Distance(score.Position)).ToArray();
        var predicted = probabilities.Select(row => ArgMax(row, _ => true)).ToArray();
        var occurring = truth.Distinct().ToHashSet();
        var among = probabilities.Select(row => ArgMax(row, occurring.Contains)).ToArray();
        var confidence = probabilities.Select(row => row.Max()).ToArray();
        var right = truth.Select((value, i) => value == predicted[i]).ToArray();
        var refused = asGiven.Select((row, i) =>
            row[notAPanel] >= calibration.NotAPanelThreshold || distances[i] >= calibration.ForeignDistance).ToArray();
        var sets = asGiven
            .Select(row => labels.Merge([.. ConformalSet.Of(row, calibration.SetCutoff).Select(flag => flag ? 1.0 : 0)]))
            .ToArray();
        var covered = truth.Select((value, i) => sets[i][value] > 0).ToArray();
        var groups = samples.Select(sample => sample.Group).ToArray();
        var confusion = Confusion(truth, predicted, Enumerable.Range(0, truth.Length));
        return new SetReport
        {
            Photos = name,
            Count = samples.Count,
            Groups = groups.Distinct().Count(),
            MacroF1 = Bootstrap.Of(groups, items => MacroF1(Confusion(truth, predicted, items))),
            MacroF1AllClasses = occurring.Count == confusion.Classes
                ? confusion.MacroF1(Enumerable.Range(0, confusion.Classes))
                : null,
            MacroF1AmongOccurring = MacroF1(Confusion(truth, among, Enumerable.Range(0, truth.Length))),
            Accuracy = Bootstrap.Of(groups, items => items.Count(i => right[i]) / (double)items.Count),
            AccuracySurerHalf = 1 - RiskCoverage.At(confidence, right, 0.5).Risk,
            TopThree = truth.Select((value, i) => Rank(probabilities[i], value) < TopCount ? 1.0 : 0).Average(),
            Ece10 = Bootstrap.Of(groups, items => ProbabilityScores.ExpectedCalibrationError(
                [.. items.Select(i => confidence[i])], [.. items.Select(i => right[i])])),
            Ece10AsExpected = even is null
                ? null
                : ProbabilityScores.ExpectedCalibrationError(
                    [.. asGiven.Select(row => row.Max())],
                    [.. asGiven.Select((row, i) => VisualClasses.MostProbable(row) == truth[i])],
                    even.Weights(truth)),
            Brier = ProbabilityScores.Brier(probabilities, truth),
            PanelsRefused = Share(refused.Where((_, i) => truth[i] != notAPanel)),
            NonPanelsRefused = Share(refused.Where((_, i) => truth[i] == notAPanel)),
            Familiar = distances.Count(distance => distance <= calibration.FamiliarDistance) / (double)distances.Length,
            SetCoverage = covered.Count(flag => flag) / (double)covered.Length,
            SetCoverageAsExpected = ClassShares.Expected.WeightedMean(truth, i => covered[i] ? 1 : 0),
            SetSize = sets.Average(set => set.Sum()),
            Reliability = ProbabilityScores.Reliability(confidence, right),
            RiskCoverage = RiskCoverage.Of(confidence, right),
            Classes = [.. Enumerable.Range(0, confusion.Classes)
                .Where(index => confusion.RowSum(index) + confusion.ColumnSum(index) > 0)
                .Select(index => new ClassReport(
                    labels.Names[index],
                    confusion.RowSum(index),
                    confusion.Precision(index),
                    confusion.Recall(index),
                    confusion.F1(index),
                    confusion.RowSum(index) == 0 ? null : Wilson.Of(confusion[index, index], confusion.RowSum(index)),
                    ClassNote.Of(confusion, index, labels.Names)))],
            Names = labels.Names,
            Confusion = [.. Enumerable.Range(0, confusion.Classes)
                .Select(row => Enumerable.Range(0, confusion.Classes).Select(column => confusion[row, column]).ToArray())],
        };
    }

    private static double MacroF1(ConfusionMatrix confusion) =>
        confusion.MacroF1(Enumerable.Range(0, confusion.Classes)
            .Where(index => VisualClasses.All[index] != VisualClasses.NotAPanel));

    private static ConfusionMatrix Confusion(int[] truth, int[] predicted, IEnumerable<int> items)
    {
        var confusion = new ConfusionMatrix(VisualClasses.All.Count);
        foreach (var item in items)
        {
            confusion.Add(truth[item], predicted[item]);
        }

        return confusion;
    }

    private static int ArgMax(double[] row, Func<int, bool> allowed) =>
        Enumerable.Range(0, row.Length).Where(allowed).MaxBy(index => row[index]);

    private static int Rank(double[] row, int index) => row.Count(value => value > row[index]);

    private static double? Share(IEnumerable<bool> flags)
    {
        var list = flags.ToArray();
        return list.Length == 0 ? null : list.Count(flag => flag) / (double)list.Length;
    }
}
