using CoatScan.Imaging.Color;
using CoatScan.Metrics;

namespace CoatScan.Imaging.Cards;

/// <summary>What every code of one size shows whatever it says, and where in a photo that fits best.</summary>
/// <remarks>
/// Finder patterns with their separators, timing patterns, and the alignment pattern of versions 2 to 6 (ISO/IEC 18004, 6.3.3 to
/// 6.3.6). The fourth corner, which perspective moves, is searched.
/// </remarks>
internal sealed class CodeFrame
{
    private const double FinderCenter = 3.5;
    private const double SearchModules = 4;
    private const double SearchStepModules = 0.5;
    private const double FineStepModules = 0.125;

    private readonly List<(double X, double Y, bool IsDark)>[] _parts;

    private CodeFrame(int side)
    {
        Side = side;
        _parts = [[.. Finders(side)], [.. Timing(side)], [.. Alignment(side)]];
    }

    /// <summary>Versions 2 to 5: what a card's message can need.</summary>
    public static IReadOnlyList<CodeFrame> All { get; } = [new(25), new(29), new(33), new(37)];

    /// <summary>Modules along a side.</summary>
    public int Side { get; }

    /// <summary>The best place: the map from modules to pixels, and how much lighter light modules are than dark ones there.</summary>
    public (Matrix3 Map, double Score) Fit(Plane light, FinderPatterns patterns)
    {
        var coarse = Search(light, patterns, 0, 0, SearchModules, SearchStepModules);
        var fine = Search(light, patterns, coarse.U, coarse.V, SearchStepModules, FineStepModules);
        return (fine.Map, fine.Score);
    }

    private (Matrix3 Map, double Score, double U, double V) Search(
        Plane light, FinderPatterns patterns, double aroundU, double aroundV, double reach, double step)
    {
        double across = Side - (2 * FinderCenter);
        var toUnit = new Matrix3(1 / across, 0, -FinderCenter / across, 0, 1 / across, -FinderCenter / across, 0, 0, 1);
        var (upperLeft, upperRight, lowerLeft) = patterns;
        var best = (Map: Matrix3.Identity, Score: double.NegativeInfinity, U: 0.0, V: 0.0);
        for (double u = aroundU - reach; u <= aroundU + reach; u += step)
        {
            for (double v = aroundV - reach; v <= aroundV + reach; v += step)
            {
                double right = 1 + (u / across);
                double down = 1 + (v / across);
                double x = upperLeft.X + (right * (upperRight.X - upperLeft.X)) + (down * (lowerLeft.X - upperLeft.X));
                double y = upperLeft.Y + (right * (upperRight.Y - upperLeft.Y)) + (down * (lowerLeft.Y - upperLeft.Y));
                Matrix3 map = PlaneMapping.OfUnitSquare(upperLeft, upperRight, lowerLeft, (x, y)) * toUnit;
                double score = Score(light, map);
                if (score > best.Score)
                {
                    best = (map, score, u, v);
                }
            }
        }

        return best;
    }

    // Each part counts the same: the finder patterns have most modules but are in place anyway.
    private double Score(Plane light, in Matrix3 map)
    {
        double score = 0;
        foreach (var part in _parts)
        {
            double difference = 0;
            foreach (var (x, y, isDark) in part)
            {
                var (px, py) = PlaneMapping.Map(map, x, y);
                int column = (int)px;
                int row = (int)py;
                if ((uint)column < (uint)light.Width && (uint)row < (uint)light.Height)
                {
                    float tone = MathF.Sqrt(light.Values[(row * light.Width) + column]);
                    difference += isDark ? -tone : tone;
                }
            }

            score += difference / part.Count;
        }

        return score / _parts.Length;
    }

    private static IEnumerable<(double X, double Y, bool IsDark)> Finders(int side)
    {
        foreach (var (left, top) in new[] { (0, 0), (side - 7, 0), (0, side - 7) })
        {
            for (int y = -1; y <= 7; y++)
            {
                for (int x = -1; x <= 7; x++)
                {
                    int ring = Math.Max(Math.Abs(x - 3), Math.Abs(y - 3));
                    yield return (left + x + 0.5, top + y + 0.5, ring is 0 or 1 or 3);
                }
            }
        }
    }

    private static IEnumerable<(double X, double Y, bool IsDark)> Timing(int side)
    {
        for (int i = 8; i < side - 8; i++)
        {
            yield return (i + 0.5, 6.5, i % 2 == 0);
            yield return (6.5, i + 0.5, i % 2 == 0);
        }
    }

    private static IEnumerable<(double X, double Y, bool IsDark)> Alignment(int side)
    {
        for (int y = -2; y <= 2; y++)
        {
            for (int x = -2; x <= 2; x++)
            {
                yield return (side - 6.5 + x, side - 6.5 + y, Math.Max(Math.Abs(x), Math.Abs(y)) != 1);
            }
        }
    }
}
