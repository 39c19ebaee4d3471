using CoatScan.Classification;
using CoatScan.Training.Evaluation;
using Microsoft.ML;

namespace CoatScan.Training.Learning;

/// <summary>Fits the numbers that come after the model, on rendered photos that trained nothing.</summary>
internal static class CalibrationFit
{
    // One panel in a hundred may be taken for none; real panels are further from the renders than these, so the
    // distance gets a margin on top, and the threshold never falls below one in forty, chosen by pictures without a panel: what stays
    // below it there are mostly marble, noise and drawings. A sound panel without anything on it looks like them, and one rendered panel in 500 more is
    // refused by this than at an even share of the classes. The 71 real panels have 0.004 at most, so it costs them nothing.
    private const double PanelQuantile = 0.99;

    private const double LeastNotAPanel = 0.025;

    private const double FamiliarQuantile = 0.975;

    private const double ForeignMargin = 2.5;

    /// <param name="context">Carries the seed.</param>
    /// <param name="photoModel">Trained photo model.</param>
    /// <param name="training">Photos that trained the models; give the center of the familiar.</param>
    /// <param name="kinds">Photos that trained nothing, by kind of camera.</param>
    /// <param name="twoFaults">Photos with two faults that trained nothing.</param>
    /// <param name="logShift">From the shares of training to the expected ones.</param>
    /// <param name="share">How much the photo model counts beside the network.</param>
    public static (Calibration Calibration, ScalingChoice Scaling) Fit(
        MLContext context,
        ITransformer photoModel,
        IReadOnlyList<Sample> training,
        IReadOnlyList<IReadOnlyList<Sample>> kinds,
        IReadOnlyList<Sample> twoFaults,
        double[] logShift,
        double share)
    {
        Sample[] held = [.. kinds.SelectMany(kind => kind)];
        var scores = PhotoModelTrainer.MeanScore(context, photoModel, held, share);
        var truth = held.Select(sample => sample.ClassIndex).ToArray();
        var scaling = ScalingChoice.Of([.. scores.Select(score => score.Score)], truth, [.. kinds.SelectMany((kind, i) => kind.Select(_ => i))]);
        var (mean, deviation) = Moments(Panels(training, PhotoModelTrainer.MeanScore(context, photoModel, training, share)));
        var calibration = Calibration.TemperatureOnly(1, logShift, PhotoModelTrainer.PositionRank) with
        {
            Scale = scaling.Chosen.Scale,
            Offset = scaling.Chosen.Offset,
            PhotoModelShare = share,
            PositionMean = mean,
            PositionDeviation = deviation,
            CellThreshold = CellThreshold(held),
        };

        var probabilities = scores.Select(score => calibration.Calibrate(score.Score)).ToArray();
        var panels = Panels(held, scores);
        var distances = panels.Select(score => calibration.Distance(score.Position)).Order().ToArray();
        var notAPanel = VisualClasses.IndexOf(VisualClasses.NotAPanel);
        var called = panels.Select(score => calibration.Calibrate(score.Score)[notAPanel]).Order().ToArray();
        return (calibration with
        {
            NotAPanelThreshold = Math.Max(LeastNotAPanel, Bootstrap.Quantile(called, PanelQuantile)),
            FamiliarDistance = Bootstrap.Quantile(distances, FamiliarQuantile),
            ForeignDistance = ForeignMargin * Bootstrap.Quantile(distances, PanelQuantile),
            SetCutoff = ConformalFit.Cutoff(probabilities, truth, ClassShares.Expected),
            SetCoverage = ConformalFit.Coverage,
            Second = SecondFaultFit.Fit(
                [.. held, .. twoFaults],
                [
                    .. probabilities,
                    .. PhotoModelTrainer.MeanScore(context, photoModel, twoFaults, share).Select(score => calibration.Calibrate(score.Score)),
                ]),
        }, scaling);
    }

    /// <summary>For each cell of each faulty photo: the share of the photo's class, and whether the mask has it there.</summary>
    public static IReadOnlyList<(double Share, bool Marked)> CellShares(IReadOnlyList<Sample> samples)
    {
        var sound = VisualClasses.IndexOf(VisualClasses.Sound);
        var notAPanel = VisualClasses.IndexOf(VisualClasses.NotAPanel);
        var shares = new List<(double Share, bool Marked)>();
        foreach (var sample in samples)
        {
            if (sample.ClassIndex == sound || sample.ClassIndex == notAPanel)
            {
                continue;
            }

            var cells = CellMap.Of(sample.Features.Cells);
            for (var i = 0; i < sample.CellLabels.Length; i++)
            {
                if (sample.CellLabels[i] >= 0)
                {
                    shares.Add((cells.Against(sample.ClassIndex, i), sample.CellLabels[i] == sample.ClassIndex));
                }
            }
        }

        return shares;
    }

    /// <summary>Agreement of marked cells with the masks, F1.</summary>
    public static double CellF1(IReadOnlyList<(double Share, bool Marked)> shares, double threshold)
    {
        var hits = shares.Count(cell => cell.Marked && cell.Share >= threshold);
        var wrong = shares.Count(cell => cell.Marked != (cell.Share >= threshold));
        return hits == 0 ? 0 : 2.0 * hits / ((2 * hits) + wrong);
    }

    /// <summary>The share against sound at which marked cells agree best (F1) with the masks.</summary>
    private static double CellThreshold(IReadOnlyList<Sample> held)
    {
        var shares = CellShares(held);
        return Enumerable.Range(1, 19)
            .Select(step => step / 20.0)
            .OrderByDescending(threshold => CellF1(shares, threshold))
            .First();
    }

    private static PhotoScore[] Panels(IReadOnlyList<Sample> samples, IReadOnlyList<PhotoScore> scores)
    {
        var notAPanel = VisualClasses.IndexOf(VisualClasses.NotAPanel);
        return [.. scores.Where((_, index) => samples[index].ClassIndex != notAPanel)];
    }

    private static (double[] Mean, double[] Deviation) Moments(PhotoScore[] scores)
    {
        var rank = scores[0].Position.Length;
        var mean = new double[rank];
        var deviation = new double[rank];
        for (var i = 0; i < rank; i++)
        {
            mean[i] = scores.Average(score => score.Position[i]);
            deviation[i] = Math.Sqrt(scores.Average(score => Math.Pow(score.Position[i] - mean[i], 2)));
        }

        return (mean, deviation);
    }
}
