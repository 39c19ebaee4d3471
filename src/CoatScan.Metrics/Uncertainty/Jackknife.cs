namespace CoatScan.Metrics.Uncertainty;

/// <summary>How far a value depends on single members of what it was computed from.</summary>
/// <remarks>Source: Efron and Stein, Annals of Statistics 9, 586-596, 1981 (from memory). Cost: one evaluation a member.</remarks>
internal static class Jackknife
{
    /// <summary>1.96 standard errors from the values without one member each; 0 for fewer than two.</summary>
    internal static double HalfWidth(int count, Func<int, double> without)
    {
        if (count < 2)
        {
            return 0.0;
        }

        var (sum, squares) = (0.0, 0.0);
        for (var i = 0; i < count; i++)
        {
            var value = without(i);
            sum += value;
            squares += value * value;
        }

        var mean = sum / count;
        return 1.96 * Math.Sqrt((count - 1.0) * Math.Max(0.0, (squares / count) - (mean * mean)));
    }
}
