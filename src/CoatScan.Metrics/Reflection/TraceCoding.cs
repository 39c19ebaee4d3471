using CoatScan.Metrics.Texture;

namespace CoatScan.Metrics.Reflection;

/// <summary>Error that block coding leaves in a trace: its steps where the edge passes from block to block.</summary>
/// <remarks>
/// <para>Blocks err independently, so the trace steps at their borders, every 8 px of the original along either axis; a
/// step's variance beyond that of the steps elsewhere is twice the error's. The phase with the largest steps counts, so that
/// chance makes the error a little too large, never too small. The error stays the same through a block: in a band of longer
/// waves its power is that of white noise times the block's length.</para>
/// <para>Source: the 8 x 8 blocks of ITU-T T.81; the estimate is our own.</para>
/// </remarks>
internal static class TraceCoding
{
    private const double LeastPeriodPx = 4.0;

    /// <summary>Variance of the error times the length of a block along the edge, cubic pixels; 0 where blocks are too small
    /// to show.</summary>
    /// <param name="residualsPx">Distance from the smooth curve at each pixel of the length.</param>
    /// <param name="along">Unit vector along the edge.</param>
    /// <param name="originalPxPerPx">Pixels of the coded photo per pixel of the planes.</param>
    internal static double PowerPx3(double[] residualsPx, (double X, double Y) along, double originalPxPerPx)
    {
        var steps = new double[Math.Max(0, residualsPx.Length - 3)];
        for (var i = 0; i < steps.Length; i++)
        {
            var (a, b, c, d) = (residualsPx[i], residualsPx[i + 1], residualsPx[i + 2], residualsPx[i + 3]);
            var step = (1.5 * (c - b)) + (0.5 * (a - d));
            steps[i] = step * step;
        }

        var block = BlockGrid.BlockPx / originalPxPerPx;
        return Math.Max(
            Power(steps, block / Math.Max(1e-6, Math.Abs(along.X))),
            Power(steps, block / Math.Max(1e-6, Math.Abs(along.Y))));
    }

    private static double Power(double[] steps, double period)
    {
        if (period < LeastPeriodPx || steps.Length < 8.0 * period)
        {
            return 0.0;
        }

        var mean = steps.Sum() / steps.Length;
        var most = 0.0;
        for (var phase = 0.0; phase < period; phase++)
        {
            var (sum, count) = (0.0, 0);
            for (var at = phase; at < steps.Length - 0.5; at += period)
            {
                sum += steps[(int)Math.Round(at)];
                count++;
            }

            most = Math.Max(most, (sum / count) - mean);
        }

        return 0.5 * most * period;
    }
}
