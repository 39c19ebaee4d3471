namespace CoatScan.Metrics.Marks;

/// <summary>Whether spots lie at random, in clusters or evenly: mean distance to the nearest neighbor over that at random.</summary>
/// <param name="Ratio">1 at random, 2 on a square lattice, 2.149 on a hexagonal one, below 1 in clusters.</param>
/// <param name="HalfWidth">1.96 standard errors of the ratio of random points.</param>
/// <remarks>
/// <para>Source: Clark and Evans, Ecology 35(4), 1954: expected 0.5 sqrt(A / n). Correction for neighbors beyond the frame:
/// Donnelly 1978, expected distance plus (0.0514 + 0.041 / sqrt n) P / n and variance 0.0703 A / n^2 + 0.037 P sqrt(A / n^5), for the area A and the
/// perimeter P; its constants from memory, checked on random points in the tests.</para>
/// <para>Spots of some size cannot lie in each other, which alone lifts the ratio of a dense random pattern above 1.</para>
/// </remarks>
internal readonly record struct SpotPattern(double Ratio, double HalfWidth)
{
    /// <summary>Fewer spots do not tell a pattern: the half width is about 0.4 at 8.</summary>
    internal const int LeastSpots = 8;

    /// <summary>Mean nearest distance over the expected one, without a frame.</summary>
    internal static double RatioOf(double meanNearest, double density) => meanNearest / (0.5 / Math.Sqrt(density));

    internal static SpotPattern Of(IReadOnlyList<(double X, double Y)> places, double width, double height)
    {
        double n = places.Count;
        var (area, perimeter) = (width * height, 2.0 * (width + height));
        var expected = (0.5 * Math.Sqrt(area / n)) + ((0.0514 + (0.041 / Math.Sqrt(n))) * perimeter / n);
        var variance = (0.0703 * area / (n * n)) + (0.037 * perimeter * Math.Sqrt(area / Math.Pow(n, 5.0)));
        return new(MeanNearest(places, width, height) / expected, Marks.HalfWidth.Normal * Math.Sqrt(variance) / expected);
    }

    // Cells of one place on average: rings of cells are searched until none can hold a nearer place.
    private static double MeanNearest(IReadOnlyList<(double X, double Y)> places, double width, double height)
    {
        var cell = Math.Sqrt(width * height / places.Count);
        var (across, down) = ((int)(width / cell) + 1, (int)(height / cell) + 1);
        var cells = new List<int>?[across * down];
        for (var i = 0; i < places.Count; i++)
        {
            var at = (Index(places[i].Y, cell, down) * across) + Index(places[i].X, cell, across);
            (cells[at] ??= []).Add(i);
        }

        var sum = 0.0;
        for (var i = 0; i < places.Count; i++)
        {
            var nearest = double.MaxValue;
            for (var ring = 0; ring <= Math.Max(across, down) && (ring - 1) * cell <= nearest; ring++)
            {
                nearest = Math.Min(nearest, InRing(places, cells, i, ring, cell, across, down));
            }

            sum += nearest;
        }

        return sum / places.Count;
    }

    private static double InRing(
        IReadOnlyList<(double X, double Y)> places, List<int>?[] cells, int index, int ring, double cell, int across, int down)
    {
        var place = places[index];
        var (column, row) = (Index(place.X, cell, across), Index(place.Y, cell, down));
        var nearest = double.MaxValue;
        for (var y = Math.Max(0, row - ring); y <= Math.Min(down - 1, row + ring); y++)
        {
            var isWhole = Math.Abs(y - row) == ring;
            for (var x = Math.Max(0, column - ring); x <= Math.Min(across - 1, column + ring); x++)
            {
                if ((!isWhole && Math.Abs(x - column) != ring) || cells[(y * across) + x] is not { } list)
                {
                    continue;
                }

                foreach (var other in list)
                {
                    var (dx, dy) = (places[other].X - place.X, places[other].Y - place.Y);
                    nearest = other == index ? nearest : Math.Min(nearest, Math.Sqrt((dx * dx) + (dy * dy)));
                }
            }
        }

        return nearest;
    }

    private static int Index(double position, double cell, int count) => Math.Clamp((int)(position / cell), 0, count - 1);
}
