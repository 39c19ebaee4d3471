namespace CoatScan.Classification;

/// <summary>
/// What the network says about a picture and about its mirror image, as one: a fault is the same fault in a mirror, so what differs between the
/// two is chance.
/// </summary>
internal static class MirrorMean
{
    /// <param name="plain">Of the picture.</param>
    /// <param name="mirrored">Of the picture with left and right changed.</param>
    /// <returns>Means of the features, and of the logarithms of the probabilities, cells in their places in the picture.</returns>
    public static PhotoFeatures Of(NetworkOutput plain, NetworkOutput mirrored)
    {
        var (answer, other) = (LogShares(plain.Answer, 0, 1), LogShares(mirrored.Answer, 0, 1));
        var cells = new float[CellMap.Length];
        for (var cell = 0; cell < CellMap.Count; cell++)
        {
            var (row, column) = Math.DivRem(cell, CellMap.Side);
            var here = LogShares(plain.Cells, cell, CellMap.Count);
            var there = LogShares(mirrored.Cells, (row * CellMap.Side) + CellMap.Side - 1 - column, CellMap.Count);
            for (var c = 0; c < CellMap.Classes; c++)
            {
                cells[(c * CellMap.Count) + cell] = 0.5f * (here[c] + there[c]);
            }
        }

        return new PhotoFeatures
        {
            Mean = Mean(plain.Mean, mirrored.Mean),
            Peak = Mean(plain.Peak, mirrored.Peak),
            Answer = Mean(answer, other),
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
