namespace CoatScan.Metrics.Reflection;

/// <summary>Mean profile across a stretch of an edge, in cells of a quarter pixel: 0 on the dark side, 1 on the bright
/// one.</summary>
/// <remarks>
/// <para>The rows are laid over each other by their own traced places, so that waviness does not widen the edge. The 10 % to
/// 90 % rise of a Gaussian blur of s is 2.5631 s; what interpolation between pixels adds, see
/// <see cref="EdgeStrip.InterpolationVariance"/>, is taken off.</para>
/// <para>Source: edge spread of ISO 12233 (idea of the slanted edge); the closed form of a Gaussian edge.</para>
/// </remarks>
internal sealed class EdgeProfile
{
    /// <summary>10 % to 90 % rise over the standard deviation of a Gaussian edge: 2 x 1.28155.</summary>
    internal const double RisePerSigma = 2.5631;

    private const int CellsPerPx = 4;

    private readonly double[] _sums;
    private readonly int[] _counts;

    private EdgeProfile(double[] sums, int[] counts) => (_sums, _counts) = (sums, counts);

    /// <summary>The profile of the rows from one to before another.</summary>
    internal static EdgeProfile Of(EdgeTrace trace, EdgeStrip strip, int firstRow, int endRow)
    {
        var cells = (2 * CellsPerPx * strip.ReachPx) + 1;
        var (sums, counts) = (new double[cells], new int[cells]);
        for (var row = firstRow; row < endRow; row++)
        {
            if (!trace.IsTraced(row))
            {
                continue;
            }

            var values = strip.Row(row);
            var (low, perStep) = ((float)trace.Low(row), (float)(1.0 / (trace.High(row) - trace.Low(row))));
            var start = (int)Math.Round((strip.Line.RoughPx[row] - trace.PositionsPx[row]) * CellsPerPx);
            for (var i = Math.Max(0, (CellsPerPx - 1 - start) / CellsPerPx); i < values.Length; i++)
            {
                var cell = start + (i * CellsPerPx);
                if (cell >= cells)
                {
                    break;
                }

                sums[cell] += (values[i] - low) * perStep;
                counts[cell]++;
            }
        }

        return new(sums, counts);
    }

    /// <summary>All stretches as one.</summary>
    internal static EdgeProfile Join(IReadOnlyList<EdgeProfile> stretches)
    {
        var joined = new EdgeProfile(new double[stretches[0]._sums.Length], new int[stretches[0]._sums.Length]);
        foreach (var stretch in stretches)
        {
            for (var i = 0; i < joined._sums.Length; i++)
            {
                joined._sums[i] += stretch._sums[i];
                joined._counts[i] += stretch._counts[i];
            }
        }

        return joined;
    }

    /// <summary>How far the profile dips below its dark side or rises above its bright one, share of the step, 0 or
    /// more.</summary>
    internal double Overshoot()
    {
        var most = 0.0;
        for (var i = 0; i < _sums.Length; i++)
        {
            most = _counts[i] == 0 ? most : Math.Max(most, Math.Max(-Share(i), Share(i) - 1.0));
        }

        return most;
    }

    /// <summary>Standard deviation of the Gaussian with this rise, less the sampling, pixels; null if it does not rise that
    /// far.</summary>
    internal double? BlurPx(double interpolationVariance)
    {
        if (Pass(-1, 0.1) is not { } from || Pass(1, 0.9) is not { } to)
        {
            return null;
        }

        var sigma = (to - from) / CellsPerPx / RisePerSigma;
        return Math.Sqrt(Math.Max(0.0, (sigma * sigma) - interpolationVariance));
    }

    private double Share(int cell) => _sums[cell] / _counts[cell];

    // Where the profile, walked outward from the middle, first passes a level; in cells; null if nowhere.
    private double? Pass(int step, double level)
    {
        var (before, beforeAt) = (0.5, -1);
        for (var at = _sums.Length / 2; (uint)at < (uint)_sums.Length; at += step)
        {
            if (_counts[at] == 0)
            {
                continue;
            }

            if ((Share(at) - level) * step >= 0.0)
            {
                // A middle beyond the level is none: nothing says where the profile passed it, and its neighbor may be equal to it.
                return beforeAt < 0 ? null : beforeAt + ((at - beforeAt) * (level - before) / (Share(at) - before));
            }

            (before, beforeAt) = (Share(at), at);
        }

        return null;
    }
}
