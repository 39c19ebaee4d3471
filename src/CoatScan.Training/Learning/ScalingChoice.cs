namespace CoatScan.Training.Learning;

/// <summary>Temperature or vector scaling, chosen by log loss on photos of another kind than those that fitted it.</summary>
/// <param name="Chosen">What the product uses.</param>
/// <param name="Temperature">The one temperature, fitted on all photos and raised by <see cref="Care"/>.</param>
/// <param name="Vector">The scaling by class, fitted on all photos and made less sure by <see cref="Care"/>.</param>
/// <param name="TemperatureLogLoss">Cross-validated, natural logarithm.</param>
/// <param name="VectorLogLoss">Cross-validated, natural logarithm.</param>
/// <remarks>
/// What comes from people is of a kind that no set here has, so a scaling must carry over from one kind to another: each kind (ordinary camera,
/// harsh camera) is left out in turn. Among photos of the same kinds, two numbers a class win by following the renderer's own errors; both
/// kinds come from one renderer, so two numbers a class must win clearly.
/// </remarks>
internal sealed record ScalingChoice(
    VectorScaling Chosen, double Temperature, VectorScaling Vector, double TemperatureLogLoss, double VectorLogLoss)
{
    /// <summary>Vector scaling is used when its log loss is at most this share of the temperature's. A judgment, no source.</summary>
    public const double ClearWin = 0.95;

    /// <summary>
    /// How much less sure the product is than the calibration renders ask for: what people send differs from them more than they among themselves. On
    /// shifted renders and on the 71 real photos, which chose this number, log loss is least at 1.2 to 1.3 times the temperature; held-out renders lose more by
    /// that than by this.
    /// </summary>
    public const double Care = 1.1;

    /// <summary>Whether vector scaling won.</summary>
    public bool IsVector => ReferenceEquals(Chosen, Vector);

    /// <param name="scores">Probabilities of the model.</param>
    /// <param name="truth">True class of each photo.</param>
    /// <param name="kinds">Kind of each photo; at least two kinds.</param>
    public static ScalingChoice Of(IReadOnlyList<float[]> scores, IReadOnlyList<int> truth, IReadOnlyList<int> kinds)
    {
        double temperatureLoss = 0, vectorLoss = 0;
        foreach (var left in kinds.Distinct())
        {
            int[] fit = [.. Enumerable.Range(0, kinds.Count).Where(i => kinds[i] != left)];
            int[] rest = [.. Enumerable.Range(0, kinds.Count).Where(i => kinds[i] == left)];
            var (fitScores, fitTruth) = (fit.Select(i => scores[i]).ToArray(), fit.Select(i => truth[i]).ToArray());
            var (restScores, restTruth) = (rest.Select(i => scores[i]).ToArray(), rest.Select(i => truth[i]).ToArray());
            var around = 1 / ScaleFit.Temperature(fitScores, fitTruth);
            var part = rest.Length / (double)kinds.Count;
            temperatureLoss += part * VectorScaling.Same(around).LogLoss(restScores, restTruth);
            vectorLoss += part * VectorScaling.Fit(fitScores, fitTruth, around).LogLoss(restScores, restTruth);
        }

        var fitted = ScaleFit.Temperature(scores, truth);
        var temperature = Care * fitted;
        var vector = VectorScaling.Fit(scores, truth, 1 / fitted).Softened(Care);
        return new ScalingChoice(
            vectorLoss <= ClearWin * temperatureLoss ? vector : VectorScaling.Same(1 / temperature), temperature, vector, temperatureLoss, vectorLoss);
    }
}
