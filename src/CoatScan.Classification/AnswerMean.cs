namespace CoatScan.Classification;

/// <summary>
/// The photo model's probabilities and the network's own, for the picture and for its cells, averaged by their logarithms. The photo model was
/// fitted to rendered panels alone and follows them further from real photos than the network does; on renders it adds nothing to the present
/// network (see the comparison in the model card). The cells add nothing on renders either, but real photos, which differ from renders as a whole
/// more than in their parts, are told apart better and less surely wrong with them.
/// </summary>
internal static class AnswerMean
{
    /// <summary>How much the photo model counts in the mean of the shipped model; the network counts for the rest.</summary>
    public const double UsualShare = 0.1;

    /// <summary>How much the cells count in the network's answer; what it says of the whole picture counts for the rest.</summary>
    public const double CellShare = 0.25;

    // Of the views with one fault or none that taught the network 7 in 31 were sound, of the photo model's panels 5 in 29: the network's
    // odds are brought to the photo model's.
    private static readonly double SoundShift = Math.Log(5.0 / 7.0);

    /// <param name="score">Probabilities of the photo model, in the order of the visual classes.</param>
    /// <param name="features">What the network says.</param>
    /// <param name="share">How much the photo model counts, 0 to 1.</param>
    /// <param name="cellShare">How much the cells count beside the whole picture, 0 to 1.</param>
    /// <returns>Probabilities that sum to 1, at the class shares that the photo model was trained on.</returns>
    public static float[] Of(ReadOnlySpan<float> score, PhotoFeatures features, double share, double cellShare = CellShare)
    {
        var logits = new double[features.Answer.Length];
        var picture = SoftMax.Of([.. features.Answer.Select(value => (double)value)]);
        var cells = CellMap.Of(features.Cells).LogShares();
        for (var i = 0; i < logits.Length; i++)
        {
            logits[i] = ((1 - cellShare) * SoftMax.SafeLog(picture[i])) + (cellShare * cells[i])
                + (i == VisualClasses.IndexOf(VisualClasses.Sound) ? SoundShift : 0);
        }

        var network = SoftMax.Of(logits);
        for (var i = 0; i < logits.Length; i++)
        {
            logits[i] = (share * SoftMax.SafeLog(score[i])) + ((1 - share) * SoftMax.SafeLog(network[i]));
        }

        return [.. SoftMax.Of(logits).Select(value => (float)value)];
    }
}
