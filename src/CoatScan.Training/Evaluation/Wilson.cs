namespace CoatScan.Training.Evaluation;

/// <summary>Interval of a share from few photos (Wilson, JASA 22, 1927).</summary>
internal static class Wilson
{
    // Normal quantile of 97.5 %.
    private const double Z = 1.959963984540054;

    /// <summary>95 % interval of hits among all, [0, 1].</summary>
    public static Interval Of(int hits, int all)
    {
        var share = hits / (double)all;
        var middle = (share + (Z * Z / (2 * all))) / (1 + (Z * Z / all));
        var half = Z / (1 + (Z * Z / all)) * Math.Sqrt((share * (1 - share) / all) + (Z * Z / (4.0 * all * all)));
        return new Interval(share, Math.Max(0, middle - half), Math.Min(1, middle + half));
    }
}
