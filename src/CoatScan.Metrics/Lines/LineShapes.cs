using CoatScan.Metrics.Uncertainty;

namespace CoatScan.Metrics.Lines;

/// <summary>What single lines look like, weighted by their length.</summary>
/// <remarks>
/// Uncertainties are 1.96 standard errors of leaving out one line at a time, and what it makes where no line is followed through a
/// node: whether one goes on there is a matter of a few pixels. Cost: by the number of lines. The shares are our own; see <see cref="LineArc"/>.
/// </remarks>
internal sealed class LineShapes
{
    private readonly Sums[] _lines;
    private readonly Sums[] _pieces;
    private readonly Sums _total;
    private readonly Sums _totalOfPieces;

    /// <param name="chains">The lines.</param>
    /// <param name="pieces">The same without joining any at nodes.</param>
    /// <param name="runsOut">Whether a line runs from frame to frame.</param>
    internal LineShapes(
        IReadOnlyList<LineChain> chains, IReadOnlyList<LineChain> pieces, Func<LineChain, bool> runsOut)
    {
        _lines = [.. chains.Select(chain => Sums.Of(chain, runsOut(chain)))];
        _pieces = [.. pieces.Select(chain => Sums.Of(chain, runsOut(chain)))];
        _total = Sums.Of(_lines);
        _totalOfPieces = Sums.Of(_pieces);
    }

    /// <summary>Ends' distance over length, [0, 1]: 1 straight.</summary>
    internal Estimate Straightness => Share(sums => sums.Chord);

    /// <summary>Share of length in lines that keep to a circle, [0, 1].</summary>
    internal Estimate Arcs => Share(sums => sums.Arc);

    /// <summary>Mean curvature, 1/px, 0 or more.</summary>
    internal Estimate Curvature => Share(sums => sums.Bend);

    /// <summary>Share of length in lines that run from frame to frame, [0, 1].</summary>
    internal Estimate RunningOut => Share(sums => sums.RunningOut);

    /// <summary>Share of the longest line, (0, 1]; 0 without lines.</summary>
    internal Estimate Longest
    {
        get
        {
            var share = ShareOfLongest(_lines, _total);
            return new(share, Math.Abs(share - ShareOfLongest(_pieces, _totalOfPieces)));
        }
    }

    private static double ShareOfLongest(Sums[] lines, Sums total) =>
        lines.Length == 0 ? 0.0 : lines.Max(line => line.Length) / Math.Max(total.Length, 1e-9);

    private Estimate Share(Func<Sums, double> part)
    {
        var value = Ratio(_total);
        var single = Jackknife.HalfWidth(_lines.Length, line => Ratio(_total - _lines[line]));
        return new Estimate(value, single).Widened(value - Ratio(_totalOfPieces));

        double Ratio(Sums sums) => sums.Length > 0.0 ? part(sums) / sums.Length : 0.0;
    }

    private readonly record struct Sums(double Length, double Chord, double Arc, double Bend, double RunningOut)
    {
        internal static Sums Of(LineChain chain, bool runsOut)
        {
            var (length, arc) = (chain.LengthPx, LineArc.Of(chain));
            return new(
                length,
                Math.Min(chain.ChordPx, length),
                arc.IsArc ? length : 0.0,
                arc.CurvaturePerPx * length,
                runsOut ? length : 0.0);
        }

        internal static Sums Of(Sums[] lines)
        {
            var total = default(Sums);
            foreach (var line in lines)
            {
                total += line;
            }

            return total;
        }

        public static Sums operator +(Sums a, Sums b) =>
            new(a.Length + b.Length, a.Chord + b.Chord, a.Arc + b.Arc, a.Bend + b.Bend, a.RunningOut + b.RunningOut);

        public static Sums operator -(Sums a, Sums b) =>
            new(a.Length - b.Length, a.Chord - b.Chord, a.Arc - b.Arc, a.Bend - b.Bend, a.RunningOut - b.RunningOut);
    }
}
