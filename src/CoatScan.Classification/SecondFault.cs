namespace CoatScan.Classification;

/// <summary>
/// Whether a photo shows a second class beside the one it is called by: a logistic rule over what the cells say, fitted on rendered panels with
/// one and with two faults.
/// </summary>
internal sealed record SecondFault
{
    /// <summary>Number of weights: the constant and four signs.</summary>
    public const int Length = 5;

    // A fault of some size fills a few cells; the same number as for the peaks of a map.
    private const int BestCells = 4;

    private const double LeastShare = 1e-4;

    /// <summary>Constant, then one weight a sign, in the order of <see cref="Signs"/>.</summary>
    public required double[] Weights { get; init; }

    /// <summary>From this probability on the second class is named.</summary>
    public required double Threshold { get; init; }

    /// <summary>
    /// The signs of one class beside another: 1; logarithm of its mean share over the cells that show it most; how much more of it those cells
    /// show than of the first, as a log ratio; logarithm of 1 + the cells that show it most of all faults; logarithm of its probability in
    /// the whole picture.
    /// </summary>
    public static double[] Signs(CellMap cells, ReadOnlySpan<double> probabilities, int first, int second)
    {
        Span<int> best = stackalloc int[BestCells];
        cells.Best(second, best);
        double own = 0, other = 0;
        foreach (var cell in best)
        {
            own += cells.Share(second, cell) / BestCells;
            other += cells.Share(first, cell) / BestCells;
        }

        var ahead = 0;
        for (var cell = 0; cell < CellMap.Count; cell++)
        {
            ahead += cells.Leading(cell) == second ? 1 : 0;
        }

        return
        [
            1,
            Math.Log(Math.Max(LeastShare, own)),
            Math.Log(Math.Max(LeastShare, own)) - Math.Log(Math.Max(LeastShare, other)),
            Math.Log(1 + ahead),
            Math.Log(Math.Max(LeastShare, probabilities[second])),
        ];
    }

    /// <summary>Probability that a class with these signs is there too.</summary>
    public double Probability(ReadOnlySpan<double> signs)
    {
        var sum = 0.0;
        for (var i = 0; i < Length; i++)
        {
            sum += Weights[i] * signs[i];
        }

        return 1 / (1 + Math.Exp(-sum));
    }

    /// <summary>The class that is there beside the most probable one, or null.</summary>
    public (int ClassIndex, double Probability)? Find(CellMap cells, ReadOnlySpan<double> probabilities)
    {
        var first = VisualClasses.MostProbable(probabilities);
        if (!VisualClasses.IsFault(first))
        {
            return null;
        }

        var found = (ClassIndex: -1, Probability: 0.0);
        for (var second = 0; second < probabilities.Length; second++)
        {
            if (second != first && VisualClasses.IsFault(second)
                && Probability(Signs(cells, probabilities, first, second)) is var probability && probability > found.Probability)
            {
                found = (second, probability);
            }
        }

        return found.Probability >= Threshold ? found : null;
    }
}
