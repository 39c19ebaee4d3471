using ZXing.Common;

namespace CoatScan.Imaging.Cards;

/// <summary>Looks for finder patterns along rows and columns alone.</summary>
/// <remarks>
/// A finder pattern shows dark and light 1 : 1 : 3 : 1 : 1 along any line through its middle (ISO/IEC 18004, 6.3.3), also when it is
/// sheared. The library asks for the same along the diagonal, where a tilted pattern fails; this does not, and so finds what may be
/// none: it is for a second look, and what it finds must still hold a code that reads.
/// </remarks>
internal static class FinderScan
{
    private const int RowStep = 2;

    // Of the most often crossed places so many are tried, in threes.
    private const int MostCenters = 5;

    // Rows that must cross a pattern: three modules of two pixels, every second row.
    private const int LeastCrossings = 3;

    // How far a run may be off its share, in modules. No source.
    private const double RunTolerance = 0.6;

    // Longest over shortest module of three patterns of one code; 45 degrees close by gives 1.5. No source.
    private const double MostModuleRatio = 2;

    // Shapes that a square code seen at up to 45 degrees can take, with room. No source.
    private const double MostLegRatio = 2;
    private const double LeastSine = 0.6;

    // Finder centers of versions 2 to 5 are 18 to 30 modules apart; modules are measured along rows, aslant up to half as long again.
    private const double LeastSpanModules = 10;
    private const double MostSpanModules = 40;

    /// <summary>Threes of places that may be the finder patterns of one code, likeliest first.</summary>
    public static IEnumerable<FinderPatterns> Find(BitMatrix picture, int step)
    {
        var centers = Centers(picture)
            .Where(center => center.Crossings >= LeastCrossings)
            .OrderByDescending(center => center.Crossings)
            .ThenBy(center => center.Y)
            .ThenBy(center => center.X)
            .Take(MostCenters)
            .ToList();
        for (int a = 0; a < centers.Count; a++)
        {
            for (int b = a + 1; b < centers.Count; b++)
            {
                for (int c = b + 1; c < centers.Count; c++)
                {
                    if (Arrange(centers[a], centers[b], centers[c], step) is { } patterns)
                    {
                        yield return patterns;
                    }
                }
            }
        }
    }

    // The corner is opposite the longest side; then the order that is not mirrored.
    private static FinderPatterns? Arrange(Center a, Center b, Center c, int step)
    {
        double[] modules = [a.Module, b.Module, c.Module];
        if (modules.Max() > MostModuleRatio * modules.Min())
        {
            return null;
        }

        double ab = Distance(a, b);
        double bc = Distance(b, c);
        double ca = Distance(c, a);
        var (corner, one, other) = ab >= bc && ab >= ca ? (c, a, b) : bc >= ca ? (a, b, c) : (b, c, a);
        double cross = ((one.X - corner.X) * (other.Y - corner.Y)) - ((one.Y - corner.Y) * (other.X - corner.X));
        double legs = Distance(corner, one) / Distance(corner, other);
        double span = (Distance(corner, one) + Distance(corner, other)) / (modules.Average() * 2);
        if (legs is < 1 / MostLegRatio or > MostLegRatio
            || Math.Abs(cross) < LeastSine * Distance(corner, one) * Distance(corner, other)
            || span is < LeastSpanModules or > MostSpanModules)
        {
            return null;
        }

        var (right, below) = cross > 0 ? (one, other) : (other, one);
        return new FinderPatterns((corner.X * step, corner.Y * step), (right.X * step, right.Y * step), (below.X * step, below.Y * step));
    }

    private static List<Center> Centers(BitMatrix picture)
    {
        var centers = new List<Center>();
        Span<int> runs = stackalloc int[5];
        for (int y = 0; y < picture.Height; y += RowStep)
        {
            runs.Clear();
            bool current = false;
            for (int x = 0; x <= picture.Width; x++)
            {
                bool isDark = x < picture.Width && picture[x, y];
                if (isDark == current)
                {
                    runs[4]++;
                    continue;
                }

                // The fifth run ends where dark ends.
                if (current
                    && IsPattern(runs)
                    && CrossCheck(picture, x - runs[4] - runs[3] - (runs[2] / 2.0), y, runs) is { } center)
                {
                    Add(centers, center);
                }

                runs[1..].CopyTo(runs);
                runs[4] = 1;
                current = isDark;
            }
        }

        return centers;
    }

    private static Center? CrossCheck(BitMatrix picture, double x, int y, ReadOnlySpan<int> across)
    {
        int column = (int)x;
        Span<int> runs = stackalloc int[5];
        runs.Clear();
        int limit = 4 * (across[0] + across[1] + across[2] + across[3] + across[4]);
        int at = y;
        for (int run = 2; run >= 0; run--)
        {
            while (at >= 0 && picture[column, at] == (run % 2 == 0) && runs[run] < limit)
            {
                runs[run]++;
                at--;
            }
        }

        at = y + 1;
        int below = 0;
        for (int run = 2; run < 5; run++)
        {
            while (at < picture.Height && picture[column, at] == (run % 2 == 0) && runs[run] < limit)
            {
                runs[run]++;
                at++;
                below += run == 2 ? 1 : 0;
            }
        }

        if (!IsPattern(runs))
        {
            return null;
        }

        double module = (across[0] + across[1] + across[2] + across[3] + across[4] + runs[0] + runs[1] + runs[2] + runs[3] + runs[4]) / 14.0;
        return new Center(x, y + 1 + below - (runs[2] / 2.0), module, 1);
    }

    private static bool IsPattern(ReadOnlySpan<int> runs)
    {
        double module = (runs[0] + runs[1] + runs[2] + runs[3] + runs[4]) / 7.0;
        double most = RunTolerance * module;
        return runs[0] > 0 && module >= 1
            && Math.Abs(runs[0] - module) < most
            && Math.Abs(runs[1] - module) < most
            && Math.Abs(runs[2] - (3 * module)) < 3 * most
            && Math.Abs(runs[3] - module) < most
            && Math.Abs(runs[4] - module) < most;
    }

    private static void Add(List<Center> centers, Center found)
    {
        for (int i = 0; i < centers.Count; i++)
        {
            Center known = centers[i];
            if (Distance(known, found) < 2 * known.Module)
            {
                double share = 1.0 / (known.Crossings + 1);
                centers[i] = new Center(
                    known.X + (share * (found.X - known.X)),
                    known.Y + (share * (found.Y - known.Y)),
                    known.Module + (share * (found.Module - known.Module)),
                    known.Crossings + 1);
                return;
            }
        }

        centers.Add(found);
    }

    private static double Distance(Center a, Center b) => Math.Sqrt(((a.X - b.X) * (a.X - b.X)) + ((a.Y - b.Y) * (a.Y - b.Y)));

    private readonly record struct Center(double X, double Y, double Module, int Crossings);
}
