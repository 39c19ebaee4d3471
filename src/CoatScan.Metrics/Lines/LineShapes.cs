namespace CoatScan.Metrics.Lines;

/// <summary>What single lines look like, weighted by their length.</summary>
/// <remarks>
/// Uncertainties are 1.96 standard errors of leaving out one line at a time; 0 for the longest line, which is the one that it is.
/// Cost: by the number of lines. The shares are our own; see <see cref="LineArc"/>.
/// </remarks>
internal sealed class LineShapes
{
    private readonly Sums[] _lines;
    private readonly Sums _total;

    internal LineShapes(IReadOnlyList<LineChain> chains, Func<LineChain, bool> runsOut)
    {
        _lines = [.. chains.Select(chain => Sums.Of(chain, runsOut(chain)))];
        foreach (var line in _lines)
        {
            _total += line;
        }
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
            var share = _lines.Length == 0 ? 0.0 : _lines.Max(line => line.Length) / Math.Max(_total.Length, 1e-9);
            return new(share, 0.0);
        }
    }

    private Estimate Share(Func<Sums, double> part)
    {
        return new(Ratio(_total), Jackknife.HalfWidth(_lines.Length, line => Ratio(_total - _lines[line])));

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

        public static Sums operator +(Sums a, Sums b) =>
            new(a.Length + b.Length, a.Chord + b.Chord, a.Arc + b.Arc, a.Bend + b.Bend, a.RunningOut + b.RunningOut);

        public static Sums operator -(Sums a, Sums b) =>
            new(a.Length - b.Length, a.Chord - b.Chord, a.Arc - b.Arc, a.Bend - b.Bend, a.RunningOut - b.RunningOut);
    }
}
