using CoatScan.Metrics.Texture;
using CoatScan.Metrics.Uncertainty;

namespace CoatScan.Metrics.Zones;

/// <summary>Texture of one rectangle of a panel, from a grid of four by four tiles.</summary>
/// <remarks>
/// Levels are half an L* wide and count from the tile's darkest pixel. Half widths are 2.13 standard errors of the sixteen tiles (Student's t for 15 degrees of
/// freedom). Cost: by the area of the rectangle. Sources: <see cref="Cooccurrence"/>; <see cref="LocalBinaryPattern"/>; step and grid are our own.
/// </remarks>
/// <param name="Contrast">Mean square step of L* between two points 2 px apart along rows and columns, 0 or more.</param>
/// <param name="Correlation">Correlation of such two points, [-1, 1]: the larger, the coarser the grain.</param>
/// <param name="UniformShare">Share of pixels whose local binary pattern is uniform, [0, 1].</param>
internal sealed record TextureReading(Estimate Contrast, Estimate Correlation, Estimate UniformShare)
{
    /// <summary>Shortest side, pixels of the planes: twelve a tile.</summary>
    internal const int LeastSidePx = TilesPerSide * 12;

    private const int TilesPerSide = 4;
    private const int StepPx = 2;
    private const double LevelLightness = 0.5;
    private const int Levels = 201;
    private const double StudentOf15 = 2.131;

    /// <summary>Reads a rectangle of L*; null where it is too small.</summary>
    internal static TextureReading? Of(Plane lightness, int left, int top, int width, int height)
    {
        if (Math.Min(width, height) < LeastSidePx)
        {
            return null;
        }

        var (contrasts, correlations, uniforms) = (new List<double>(), new List<double>(), new List<double>());
        for (var tile = 0; tile < TilesPerSide * TilesPerSide; tile++)
        {
            var (row, column) = Math.DivRem(tile, TilesPerSide);
            var (startX, startY) = (left + (column * width / TilesPerSide), top + (row * height / TilesPerSide));
            var (endX, endY) = (left + ((column + 1) * width / TilesPerSide), top + ((row + 1) * height / TilesPerSide));
            var pairs = Pairs(lightness, startX, startY, endX, endY);
            contrasts.Add(pairs.Contrast * LevelLightness * LevelLightness);
            correlations.Add(pairs.Correlation);
            uniforms.Add(UniformIn(lightness, startX, startY, endX, endY));
        }

        return new(Mean(contrasts), Mean(correlations), Mean(uniforms));
    }

    private static Cooccurrence Pairs(Plane lightness, int startX, int startY, int endX, int endY)
    {
        var levels = new int[(endX - startX) * (endY - startY)];
        var darkest = double.MaxValue;
        for (var y = startY; y < endY; y++)
        {
            foreach (var value in lightness.Row(y)[startX..endX])
            {
                darkest = Math.Min(darkest, value);
            }
        }

        for (var y = startY; y < endY; y++)
        {
            for (var x = startX; x < endX; x++)
            {
                levels[((y - startY) * (endX - startX)) + x - startX] =
                    Math.Min(Levels - 1, (int)Math.Round((lightness[x, y] - darkest) / LevelLightness));
            }
        }

        var pairs = new Cooccurrence(Levels);
        pairs.Add(levels, endX - startX, StepPx, 0);
        pairs.Add(levels, endX - startX, 0, StepPx);
        return pairs;
    }

    private static double UniformIn(Plane lightness, int startX, int startY, int endX, int endY)
    {
        var uniform = 0;
        for (var y = startY + 1; y < endY - 1; y++)
        {
            for (var x = startX + 1; x < endX - 1; x++)
            {
                uniform += LocalBinaryPattern.IsUniform(LocalBinaryPattern.At(lightness, x, y)) ? 1 : 0;
            }
        }

        return (double)uniform / ((endX - startX - 2) * (endY - startY - 2));
    }

    private static Estimate Mean(List<double> tiles)
    {
        var mean = tiles.Average();
        var variance = tiles.Sum(tile => (tile - mean) * (tile - mean)) / (tiles.Count - 1);
        return new(mean, StudentOf15 * Math.Sqrt(variance / tiles.Count));
    }
}
