using CoatScan.Metrics.Uncertainty;

namespace CoatScan.Metrics.Lines;

/// <summary>How much the directions of lines differ, [0, 1]: 0 all one way, 1 every way.</summary>
/// <remarks>
/// <para>1 - R, the circular variance of twice the angle, weighted by length: a line and its reverse agree, two sets at right angles
/// give 1. The local one compares lines of one neighborhood, a sixth of the long side wide, and no line with itself: arcs around a
/// light differ over the photo and agree side by side. It is null where no neighborhood has two lines.</para>
/// <para>Uncertainty: 1.96 standard errors of leaving out one line, or one neighborhood, at a time.</para>
/// <para>Cost: by length of line. Source: Mardia and Jupp, Directional Statistics, 2000 (axial data, circular variance; from
/// memory).</para>
/// </remarks>
internal sealed class LineDirections
{
    private const int StepPx = 8;
    private const int TilesOnLongSide = 6;

    private readonly List<DirectionSum> _lines = [];
    private readonly Dictionary<(int X, int Y), List<DirectionSum>> _tiles = [];
    private readonly double _tilePx;

    internal LineDirections(IReadOnlyList<LineChain> chains, int width, int height)
    {
        _tilePx = Math.Max(1.0, (double)Math.Max(width, height) / TilesOnLongSide);
        foreach (var chain in chains)
        {
            Add(chain);
        }
    }

    /// <summary>Over all lines; 0 without lines.</summary>
    internal Estimate Spread
    {
        get
        {
            var total = Sum(_lines);
            return new(
                1.0 - total.Agreement, Jackknife.HalfWidth(_lines.Count, line => (total - _lines[line]).Agreement));
        }
    }

    /// <summary>Within neighborhoods; null where no two lines are neighbors.</summary>
    internal Estimate? LocalSpread
    {
        get
        {
            var tiles = _tiles.Values.Select(Compare).OfType<(double Agreement, double Weight)>().ToList();
            var (agreement, weight) = (tiles.Sum(tile => tile.Agreement * tile.Weight), tiles.Sum(tile => tile.Weight));
            return tiles.Count == 0
                ? null
                : new(
                    1.0 - (agreement / weight),
                    Jackknife.HalfWidth(
                        tiles.Count,
                        i => (agreement - (tiles[i].Agreement * tiles[i].Weight)) / (weight - tiles[i].Weight)));
        }
    }

    // Mean cosine of twice the angle between two different lines of one neighborhood.
    private static (double Agreement, double Weight)? Compare(List<DirectionSum> tile)
    {
        var total = Sum(tile);
        var (pairs, own) = (total.Weight * total.Weight, 0.0);
        foreach (var line in tile)
        {
            pairs -= line.Weight * line.Weight;
            own += line.SquareLength;
        }

        return pairs > 1e-6 * total.Weight * total.Weight
            ? (Math.Sqrt(Math.Clamp((total.SquareLength - own) / pairs, 0.0, 1.0)), total.Weight)
            : null;
    }

    private void Add(LineChain chain)
    {
        var whole = default(DirectionSum);
        var inTiles = new Dictionary<(int X, int Y), DirectionSum>();
        for (var i = 0; i + 1 < chain.Xs.Length; i += StepPx)
        {
            var j = Math.Min(i + StepPx, chain.Xs.Length - 1);
            var step = DirectionSum.Of(chain.Xs[j] - chain.Xs[i], chain.Ys[j] - chain.Ys[i]);
            var tile = ((int)(chain.Xs[i] / _tilePx), (int)(chain.Ys[i] / _tilePx));
            whole += step;
            inTiles[tile] = inTiles.GetValueOrDefault(tile) + step;
        }

        _lines.Add(whole);
        foreach (var (tile, sum) in inTiles)
        {
            _tiles.TryAdd(tile, []);
            _tiles[tile].Add(sum);
        }
    }

    private static DirectionSum Sum(List<DirectionSum> sums)
    {
        var total = default(DirectionSum);
        foreach (var sum in sums)
        {
            total += sum;
        }

        return total;
    }

    // Vectors of twice the angle, as long as the step.
    private readonly record struct DirectionSum(double Cosine, double Sine, double Weight)
    {
        internal double SquareLength => (Cosine * Cosine) + (Sine * Sine);

        internal double Agreement => Weight > 0.0 ? Math.Min(1.0, Math.Sqrt(SquareLength) / Weight) : 1.0;

        internal static DirectionSum Of(double dx, double dy)
        {
            var length = Math.Sqrt((dx * dx) + (dy * dy));
            return length > 0.0 ? new(((dx * dx) - (dy * dy)) / length, 2.0 * dx * dy / length, length) : default;
        }

        public static DirectionSum operator +(DirectionSum a, DirectionSum b) =>
            new(a.Cosine + b.Cosine, a.Sine + b.Sine, a.Weight + b.Weight);

        public static DirectionSum operator -(DirectionSum a, DirectionSum b) =>
            new(a.Cosine - b.Cosine, a.Sine - b.Sine, a.Weight - b.Weight);
    }
}
