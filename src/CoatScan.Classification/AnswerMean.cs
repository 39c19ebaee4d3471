namespace CoatScan.Classification;

/// <summary>
/// The photo model's probabilities and the network's own, averaged by their logarithms. The photo model was fitted to rendered panels alone and
/// follows them further from real photos than the network does; on renders it adds nothing to the present network (see the comparison in the
/// model card).
/// </summary>
internal static class AnswerMean
{
    /// <summary>How much the photo model counts in the mean of the shipped model; the network counts for the rest.</summary>
    public const double UsualShare = 0.1;

    // Of the views with one fault or none that taught the network 7 in 31 were sound, of the photo model's panels 5 in 29: the network's
    // odds are brought to the photo model's.
    private static readonly double SoundShift = Math.Log(5.0 / 7.0);

    /// <param name="score">Probabilities of the photo model, in the order of the visual classes.</param>
    /// <param name="answer">Logits of the network, in the same order.</param>
    /// <param name="share">How much the photo model counts, 0 to 1.</param>
    /// <returns>Probabilities that sum to 1, at the class shares that the photo model was trained on.</returns>
    public static float[] Of(ReadOnlySpan<float> score, ReadOnlySpan<float> answer, double share)
    {
        var logits = new double[answer.Length];
        for (var i = 0; i < logits.Length; i++)
        {
            logits[i] = answer[i] + (i == VisualClasses.IndexOf(VisualClasses.Sound) ? SoundShift : 0);
        }

        var network = SoftMax.Of(logits);
        for (var i = 0; i < logits.Length; i++)
        {
            logits[i] = (share * SoftMax.SafeLog(score[i])) + ((1 - share) * SoftMax.SafeLog(network[i]));
        }

        return [.. SoftMax.Of(logits).Select(value => (float)value)];
    }
}
