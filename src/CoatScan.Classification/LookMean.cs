namespace CoatScan.Classification;

/// <summary>
/// What the network says about two looks at one panel, as one: a fault is the same fault in a smaller picture and in a mirror, so what differs
/// between the two looks is chance.
/// </summary>
internal static class LookMean
{
    /// <param name="large">Of the larger picture.</param>
    /// <param name="small">Of the smaller picture, in which left and right are changed.</param>
    /// <returns>
    /// Means of the features, and of the logarithms of the probabilities; the cells are those of the larger picture, which are finer.
    /// </returns>
    public static PhotoFeatures Of(NetworkOutput large, NetworkOutput small)
    {
        var cells = new float[CellMap.Length];
        for (var cell = 0; cell < CellMap.Count; cell++)
        {
            var shares = LogShares(large.Cells, cell, CellMap.Count);
            for (var c = 0; c < CellMap.Classes; c++)
            {
                cells[(c * CellMap.Count) + cell] = shares[c];
            }
        }

        return new PhotoFeatures
        {
            Mean = Mean(large.Mean, small.Mean),
            Peak = Mean(large.Peak, small.Peak),
            Answer = Mean(LogShares(large.Answer, 0, 1), LogShares(small.Answer, 0, 1)),
            Cells = cells,
        };
    }

    private static float[] Mean(float[] first, float[] second) => [.. first.Zip(second, (a, b) => 0.5f * (a + b))];

    // Logarithms of the probabilities of all classes, from logits that lie a step apart.
    private static float[] LogShares(float[] logits, int first, int step)
    {
        var shares = new float[CellMap.Classes];
        var most = float.NegativeInfinity;
        for (var c = 0; c < shares.Length; c++)
        {
            shares[c] = logits[first + (c * step)];
            most = MathF.Max(most, shares[c]);
        }

        var sum = 0f;
        foreach (var logit in shares)
        {
            sum += MathF.Exp(logit - most);
        }

        var log = most + MathF.Log(sum);
        for (var c = 0; c < shares.Length; c++)
        {
            shares[c] -= log;
        }

        return shares;
    }
}
