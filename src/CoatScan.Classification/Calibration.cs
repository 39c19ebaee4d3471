namespace CoatScan.Classification;

/// <summary>Numbers fitted after the models, on rendered photos that trained nothing. Part of the model's digest.</summary>
internal sealed record Calibration
{
    /// <summary>
    /// Multiplies the log-probabilities, one value a class; below 1 makes the model less sure. With equal values this is temperature scaling
    /// (one over the temperature), with others vector scaling (Guo et al., arXiv:1706.04599).
    /// </summary>
    public required double[] Scale { get; init; }

    /// <summary>Added to the scaled log-probabilities, one value a class; zeros for temperature scaling.</summary>
    public required double[] Offset { get; init; }

    /// <summary>
    /// Added to the log-probabilities, one value a class: from the shares of the classes in training to how often photos that people send
    /// show them.
    /// </summary>
    public required double[] LogShift { get; init; }

    /// <summary>How much the photo model counts beside the network's own answer, 0 to 1; these numbers hold for it.</summary>
    public double PhotoModelShare { get; init; } = AnswerMean.UsualShare;

    /// <summary>From this calibrated probability of not_a_panel on, the photo shows none.</summary>
    public required double NotAPanelThreshold { get; init; }

    /// <summary>Mean position of the training photos, one value a principal component.</summary>
    public required double[] PositionMean { get; init; }

    /// <summary>Standard deviation of the training photos' positions, one value a principal component.</summary>
    public required double[] PositionDeviation { get; init; }

    /// <summary>Distance up to which a photo is familiar.</summary>
    public required double FamiliarDistance { get; init; }

    /// <summary>Distance from which on a photo is taken for no panel at all.</summary>
    public required double ForeignDistance { get; init; }

    /// <summary>From this share against sound on, a cell shows the photo's class.</summary>
    public required double CellThreshold { get; init; }

    /// <summary>The largest score of a class that a photo cannot exclude (see <see cref="ConformalSet"/>).</summary>
    public required double SetCutoff { get; init; }

    /// <summary>Share of rendered panels whose true class is in the set, [0, 1].</summary>
    public required double SetCoverage { get; init; }

    /// <summary>When a second class is named.</summary>
    public required SecondFault Second { get; init; }

    /// <summary>A calibration that refuses nothing, for comparing models by their probabilities alone.</summary>
    public static Calibration TemperatureOnly(double temperature, double[] logShift, int rank)
    {
        var ones = new double[rank];
        Array.Fill(ones, 1);
        return new Calibration
        {
            Scale = [.. Enumerable.Repeat(1 / temperature, logShift.Length)],
            Offset = new double[logShift.Length],
            LogShift = logShift,
            NotAPanelThreshold = double.PositiveInfinity,
            PositionMean = new double[rank],
            PositionDeviation = ones,
            FamiliarDistance = double.PositiveInfinity,
            ForeignDistance = double.PositiveInfinity,
            CellThreshold = 1,
            SetCutoff = 1,
            SetCoverage = 1,
            Second = new SecondFault { Weights = new double[SecondFault.Length], Threshold = double.PositiveInfinity },
        };
    }

    /// <summary>Calibrated probabilities.</summary>
    /// <param name="score">Probabilities of the photo model.</param>
    public double[] Calibrate(ReadOnlySpan<float> score)
    {
        var logits = new double[score.Length];
        for (var i = 0; i < logits.Length; i++)
        {
            logits[i] = (SoftMax.SafeLog(score[i]) * Scale[i]) + Offset[i] + LogShift[i];
        }

        return SoftMax.Of(logits);
    }

    /// <summary>
    /// Root mean square of the standardized coordinates, about 1 for a photo like the training photos: a Mahalanobis
    /// distance in the space of the principal components, divided by the root of their number.
    /// </summary>
    public double Distance(ReadOnlySpan<float> position)
    {
        var sum = 0.0;
        for (var i = 0; i < position.Length; i++)
        {
            var standardized = (position[i] - PositionMean[i]) / PositionDeviation[i];
            sum += standardized * standardized;
        }

        return Math.Sqrt(sum / position.Length);
    }
}
