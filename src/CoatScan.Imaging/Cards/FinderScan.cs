namespace CoatScan.Imaging.Cards;

/// <summary>Looks for finder patterns along rows and columns alone.</summary>
/// <remarks>
/// A finder pattern shows dark and light 1 : 1 : 3 : 1 : 1 along any line through its middle (ISO/IEC 18004, 6.3.3), also when it is
/// sheared. So rows are looked through, and the column through what a row shows; what is found must still hold a code that reads.
/// </remarks>
internal static class FinderScan
{
    private const int RowStep = 2;

    // Of the most often crossed places so many are tried, in threes.
    private const int MostCenters = 5;

    // Rows that must cross a pattern: three modules of two pixels, every second row.
    private const int LeastCrossings = 3;

    // How far up and down a pattern is looked for, in lengths of its row: aslant it shows taller than wide.
    private const double MostReach = 1.5;

    // Longest over shortest module of three patterns of one code; 45 degrees close by gives 1.5. No source.
    private const double MostModuleRatio = 2;

    // Shapes that a square code seen at up to 45 degrees can take, with room. No source.
    private const double MostLegRatio = 2;
    private const double LeastSine = 0.6;

    // A side of this share of the longest may be the diagonal too: legs of 1 : 1.4 at 45 degrees, with room. No source.
    private const double LeastOfLongest = 0.85;

    // Finder centers of versions 2 to 5 are 18 to 30 modules apart; modules are measured along rows, aslant up to half as long again.
    private const double LeastSpanModules = 10;
    private const double MostSpanModules = 40;

    /// <summary>Threes of places that may be the finder patterns of one code, likeliest first.</summary>
    public static IEnumerable<FinderPatterns> Find(byte[] tones, int width, int height, int step)
    {
        var centers = Centers(tones, width, height)
            .Where(center => center.Crossings >= LeastCrossings)
            .OrderByDescending(center => center.Crossings)
            .ThenBy(center => center.Y)
            .ThenBy(center => center.X)
            .Take(MostCenters)
            .ToList();
        var threes = new List<(PatternCenter A, PatternCenter B, PatternCenter C)>();
        for (int a = 0; a < centers.Count; a++)
        {
            for (int b = a + 1; b < centers.Count; b++)
            {
                for (int c = b + 1; c < centers.Count; c++)
                {
                    threes.Add((centers[a], centers[b], centers[c]));
                }
            }
        }

        // Patterns of one code have nearly equal modules. The sort is stable: else the most crossed come first.
        return threes
            .OrderBy(three => Math.Round(4 * ModuleRatio(three.A, three.B, three.C)))
            .SelectMany(three => Arrange(three.A, three.B, three.C, step));
    }

    // The corner is opposite the longest side. A tilt along the diagonal can make another side as long: then there is a second choice.
    private static IEnumerable<FinderPatterns> Arrange(PatternCenter a, PatternCenter b, PatternCenter c, int step)
    {
        (PatternCenter Corner, PatternCenter One, PatternCenter Other, double Longest)[] choices =
        [
            (c, a, b, a.DistanceTo(b)),
            (a, b, c, b.DistanceTo(c)),
            (b, c, a, c.DistanceTo(a)),
        ];
        double longest = choices.Max(choice => choice.Longest);
        return choices
            .Where(choice => choice.Longest > LeastOfLongest * longest)
            .OrderByDescending(choice => choice.Longest)
            .Select(choice => ArrangeAt(choice.Corner, choice.One, choice.Other, step))
            .OfType<FinderPatterns>();
    }

    // In the order that is not mirrored; null if a code cannot look so.
    private static FinderPatterns? ArrangeAt(PatternCenter corner, PatternCenter one, PatternCenter other, int step)
    {
        double cross = ((one.X - corner.X) * (other.Y - corner.Y)) - ((one.Y - corner.Y) * (other.X - corner.X));
        double legs = corner.DistanceTo(one) / corner.DistanceTo(other);
        double span = (corner.DistanceTo(one) + corner.DistanceTo(other)) / ((corner.Module + one.Module + other.Module) * 2 / 3);
        if (ModuleRatio(corner, one, other) > MostModuleRatio
            || legs is < 1 / MostLegRatio or > MostLegRatio
            || Math.Abs(cross) < LeastSine * corner.DistanceTo(one) * corner.DistanceTo(other)
            || span is < LeastSpanModules or > MostSpanModules)
        {
            return null;
        }

        var (right, below) = cross > 0 ? (one, other) : (other, one);
        return new FinderPatterns((corner.X * step, corner.Y * step), (right.X * step, right.Y * step), (below.X * step, below.Y * step));
    }

    private static IReadOnlyList<PatternCenter> Centers(byte[] tones, int width, int height)
    {
        var centers = new PatternCenters();
        var line = new ToneLine(Math.Max(width, height));
        var column = new ToneLine(height);
        var samples = new byte[height];
        for (int y = 0; y < height; y += RowStep)
        {
            line.Read(tones.AsSpan(y * width, width));
            foreach (var (x, length) in line.Patterns())
            {
                int at = Math.Min(width - 1, (int)x);
                int top = Math.Max(0, y - (int)(MostReach * length));
                int bottom = Math.Min(height, y + (int)(MostReach * length) + 1);
                for (int row = top; row < bottom; row++)
                {
                    samples[row - top] = tones[(row * width) + at];
                }

                column.Read(samples.AsSpan(0, bottom - top));
                foreach (var (across, tall) in column.Patterns())
                {
                    double module = (length + tall) / 14;
                    if (Math.Abs(across + top - y - 0.5) < 2 * module
                        && tall < MostModuleRatio * length
                        && length < MostModuleRatio * tall)
                    {
                        centers.Add(x, across + top, module);
                        break;
                    }
                }
            }
        }

        return centers.All;
    }

    private static double ModuleRatio(PatternCenter a, PatternCenter b, PatternCenter c) =>
        Math.Max(a.Module, Math.Max(b.Module, c.Module)) / Math.Min(a.Module, Math.Min(b.Module, c.Module));
}
