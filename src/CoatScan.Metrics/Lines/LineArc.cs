namespace CoatScan.Metrics.Lines;

/// <summary>How a line bends: slope of its direction along its length.</summary>
/// <param name="CurvaturePerPx">Curvature of the circle that fits best, 1/px, 0 or more; 0 is straight.</param>
/// <param name="IsArc">It turns by more than 20 degrees and keeps to that circle.</param>
/// <remarks>
/// <para>Direction over length is fitted by a straight line: its slope is the curvature, and what it leaves tells an arc from a line
/// that wanders. Directions are taken over 12 px, so the grid gives each about 0.04 rad; an arc may leave 0.12 rad and a third of its
/// turn. Lines under 36 px are called straight.</para>
/// <para>Source: curvature is the change of direction with length (definition); the limits are our own.</para>
/// </remarks>
internal readonly record struct LineArc(double CurvaturePerPx, bool IsArc)
{
    /// <summary>Error that the grid of pixels gives to a direction taken over a step, radians.</summary>
    internal const double GridError = 0.04;

    private const int StepPx = 12;
    private const int LeastSteps = 3;
    private const double LeastTurn = 20.0 * Math.PI / 180.0;
    private const double LargestResidual = 0.12;
    private const double LargestResidualShare = 1.0 / 3.0;

    internal static LineArc Of(LineChain chain)
    {
        var steps = (chain.Xs.Length - 1) / StepPx;
        if (steps < LeastSteps)
        {
            return default;
        }

        var (angles, places) = (new double[steps], new double[steps]);
        var along = 0.0;
        for (var k = 0; k < steps; k++)
        {
            var (i, j) = (k * (chain.Xs.Length - 1) / steps, (k + 1) * (chain.Xs.Length - 1) / steps);
            var angle = Math.Atan2(chain.Ys[j] - chain.Ys[i], chain.Xs[j] - chain.Xs[i]);
            angles[k] = k == 0 ? angle : angles[k - 1] + Math.IEEERemainder(angle - angles[k - 1], 2.0 * Math.PI);
            var length = chain.Distance(i, j);
            places[k] = along + (length / 2.0);
            along += length;
        }

        var (slope, residual) = Fit(places, angles);
        var turn = Math.Abs(slope) * along;
        var isArc = turn > LeastTurn && residual < Math.Min(LargestResidual, LargestResidualShare * turn);
        return new(Math.Abs(slope), isArc);
    }

    private static (double Slope, double Residual) Fit(double[] x, double[] y)
    {
        var (meanX, meanY) = (x.Average(), y.Average());
        var (xx, xy, yy) = (0.0, 0.0, 0.0);
        for (var i = 0; i < x.Length; i++)
        {
            var (dx, dy) = (x[i] - meanX, y[i] - meanY);
            xx += dx * dx;
            xy += dx * dy;
            yy += dy * dy;
        }

        var slope = xy / xx;
        return (slope, Math.Sqrt(Math.Max(0.0, yy - (slope * xy)) / x.Length));
    }
}
