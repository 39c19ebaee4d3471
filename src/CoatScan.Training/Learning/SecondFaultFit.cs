using CoatScan.Classification;
using CoatScan.Training.Evaluation;

namespace CoatScan.Training.Learning;

/// <summary>Fits and judges the rule by which a second fault is named, on panels with one fault and with two.</summary>
internal static class SecondFaultFit
{
    // A second fault sends people looking: of those named, this share must be there.
    private const double NeededPrecision = 0.8;

    private const double LeastThreshold = 0.3;

    /// <param name="samples">Rendered photos that trained nothing, with one fault and with two.</param>
    /// <param name="probabilities">Their calibrated probabilities.</param>
    public static SecondFault Fit(IReadOnlyList<Sample> samples, IReadOnlyList<double[]> probabilities)
    {
        var rows = new List<double[]>();
        var truth = new List<bool>();
        for (var i = 0; i < samples.Count; i++)
        {
            var first = VisualClasses.MostProbable(probabilities[i]);
            if (!VisualClasses.IsFault(first))
            {
                continue;
            }

            var cells = CellMap.Of(samples[i].Features.Cells);
            for (var second = 0; second < probabilities[i].Length; second++)
            {
                if (second != first && VisualClasses.IsFault(second))
                {
                    rows.Add(SecondFault.Signs(cells, probabilities[i], first, second));
                    truth.Add(Shows(samples[i], second));
                }
            }
        }

        var rule = new SecondFault { Weights = LogisticFit.Fit(rows, truth), Threshold = 0 };
        return rule with { Threshold = Threshold(rule, samples, probabilities) };
    }

    /// <summary>How the rule does on photos that fitted nothing.</summary>
    public static SecondFaultReport Judge(SecondFault rule, IReadOnlyList<Sample> samples, IReadOnlyList<double[]> probabilities)
    {
        int two = 0, one = 0, named = 0, there = 0, both = 0, oneOfTwo = 0, wrongBesideOne = 0;
        var cells = new List<(double Share, bool Marked)>();
        for (var i = 0; i < samples.Count; i++)
        {
            var sample = samples[i];
            var first = VisualClasses.MostProbable(probabilities[i]);
            var map = CellMap.Of(sample.Features.Cells);
            var second = rule.Find(map, probabilities[i]);
            var isThere = second is { } found && Shows(sample, found.ClassIndex);
            named += second is null ? 0 : 1;
            there += isThere ? 1 : 0;
            if (sample.SecondIndex < 0)
            {
                one++;
                wrongBesideOne += second is not null && !isThere ? 1 : 0;
                continue;
            }

            two++;
            oneOfTwo += Shows(sample, first) ? 1 : 0;
            if (Shows(sample, first) && isThere)
            {
                both++;
                var labels = second!.Value.ClassIndex == sample.ClassIndex ? sample.CellLabels : sample.SecondCellLabels;
                cells.AddRange(labels
                    .Select((label, cell) => (label, cell))
                    .Where(pair => pair.label >= 0)
                    .Select(pair => (map.Against(second.Value.ClassIndex, pair.cell), pair.label == second.Value.ClassIndex)));
            }
        }

        return new SecondFaultReport
        {
            TwoFaultPhotos = two,
            OtherPhotos = one,
            FirstRight = Share(oneOfTwo, two),
            BothNamed = two == 0 ? null : Wilson.Of(both, two),
            Precision = named == 0 ? null : Wilson.Of(there, named),
            WrongBesideOne = Share(wrongBesideOne, one),
            Cells = cells,
        };
    }

    private static bool Shows(Sample sample, int classIndex) => sample.ClassIndex == classIndex || sample.SecondIndex == classIndex;

    private static double? Share(int part, int whole) => whole == 0 ? null : part / (double)whole;

    // The lowest probability from which on enough of those named are there.
    private static double Threshold(SecondFault rule, IReadOnlyList<Sample> samples, IReadOnlyList<double[]> probabilities)
    {
        var found = samples
            .Select((sample, i) => (Sample: sample, Second: rule.Find(CellMap.Of(sample.Features.Cells), probabilities[i])))
            .Where(pair => pair.Second is not null)
            .Select(pair => (pair.Second!.Value.Probability, IsThere: Shows(pair.Sample, pair.Second.Value.ClassIndex)))
            .OrderByDescending(pair => pair.Probability)
            .ToArray();
        var threshold = 1.0;
        var there = 0;
        for (var i = 0; i < found.Length && found[i].Probability >= LeastThreshold; i++)
        {
            there += found[i].IsThere ? 1 : 0;
            if (there >= NeededPrecision * (i + 1))
            {
                threshold = found[i].Probability;
            }
        }

        return threshold;
    }
}
