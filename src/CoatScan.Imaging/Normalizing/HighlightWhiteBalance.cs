using System.Globalization;

namespace CoatScan.Imaging.Normalizing;

/// <summary>Finds the color of the light from highlights on a colored panel, and leaves the photo alone where there are none.</summary>
/// <remarks>
/// <para>A panel has one color, so every method that expects the scene to average to gray takes the panel's own color out, and with it
/// the color shift that is looked for. A gloss highlight is different: clear coat mirrors the light itself, so a pixel beside a clipped
/// highlight is paint color plus some light. The difference between such pixels and the paint has the color of the light
/// (dichromatic reflection, Shafer 1985, from memory).</para>
/// <para>Corrected only if there are enough such pixels, their differences agree in color, the paint itself has a clearly other color
/// (on a neutral or cream panel a bright place is just paint in more light), and the light is not far from neutral (a bright
/// background or a mirrored sky would pass for the light). Otherwise the photo stays as the camera's own white balance left it.</para>
/// <para>All limits are common practice, no source; set on invented scenes and looked at on photos of painted metal.</para>
/// </remarks>
internal static class HighlightWhiteBalance
{
    private const int CellPx = 8;
    private const int MinSamples = 40;
    private const double MaxClippedFraction = 0.05;
    private const float MaxUsableLevel = 0.95f;
    private const float MinHighlightOverPaint = 0.15f;
    private const double MaxSpread = 0.08;
    private const double MinDistanceFromPaint = 0.25;
    private const double MinCorrection = 0.02;
    private static readonly double MaxCorrection = Math.Log(1.3);

    /// <summary>The gains for red and blue that make the light neutral; both 1 without evidence.</summary>
    public static WhiteBalance Estimate(ReducedPhoto photo)
    {
        var (cells, across, clippedFraction) = MarkCells(photo);
        if (clippedFraction == 0)
        {
            return Leave("no clipped highlight shows the light");
        }

        if (clippedFraction > MaxClippedFraction)
        {
            return Leave("too much is clipped to tell a highlight from a bright background");
        }

        var (paintR, paintG, paintB) = MedianColor(photo);
        if (paintR <= 0 || paintG <= 0 || paintB <= 0)
        {
            return Leave("the paint lacks a primary, so its color cannot be compared");
        }

        var (reds, blues) = CollectLight(photo, cells, across, (paintR, paintG, paintB));
        if (reds.Count < MinSamples)
        {
            return Leave("too few pixels show paint and light together");
        }

        double red = Median(reds);
        double blue = Median(blues);
        if (Spread(reds, red) > MaxSpread || Spread(blues, blue) > MaxSpread)
        {
            return Leave("the highlights do not agree on one color of the light");
        }

        double paintRed = Math.Log(paintR / paintG);
        double paintBlue = Math.Log(paintB / paintG);
        if (Math.Max(Math.Abs(red - paintRed), Math.Abs(blue - paintBlue)) < MinDistanceFromPaint)
        {
            return Leave("the bright places have the paint's own color");
        }

        if (Math.Max(Math.Abs(red), Math.Abs(blue)) > MaxCorrection)
        {
            return Leave("the highlights are too far from neutral to be the light");
        }

        if (Math.Max(Math.Abs(red), Math.Abs(blue)) < MinCorrection)
        {
            return Leave("the highlights are neutral already");
        }

        return new WhiteBalance(
            Math.Exp(-red),
            Math.Exp(-blue),
            string.Create(CultureInfo.InvariantCulture, $"{reds.Count} pixels beside clipped highlights agree on the light's color"));
    }

    private static WhiteBalance Leave(string why) => new(1, 1, $"left as the camera wrote it: {why}");

    /// <summary>Marks the cells that hold a clipped pixel or touch one that does.</summary>
    private static (bool[] Near, int Across, double ClippedFraction) MarkCells(ReducedPhoto photo)
    {
        int width = photo.Red.Width;
        int height = photo.Red.Height;
        int across = (width + CellPx - 1) / CellPx;
        int down = (height + CellPx - 1) / CellPx;
        var near = new bool[across * down];
        int clipped = 0;
        for (int y = 0; y < height; y++)
        {
            ReadOnlySpan<bool> row = photo.Clipped.AsSpan(y * width, width);
            for (int x = row.IndexOf(true); x >= 0 && x < width; x++)
            {
                if (row[x])
                {
                    clipped++;
                    MarkAround(near, across, down, x / CellPx, y / CellPx);
                }
            }
        }

        return (near, across, (double)clipped / photo.Clipped.Length);
    }

    private static void MarkAround(bool[] near, int across, int down, int cellX, int cellY)
    {
        for (int y = Math.Max(cellY - 1, 0); y <= Math.Min(cellY + 1, down - 1); y++)
        {
            for (int x = Math.Max(cellX - 1, 0); x <= Math.Min(cellX + 1, across - 1); x++)
            {
                near[(y * across) + x] = true;
            }
        }
    }

    /// <summary>Median of every channel over the whole photo: the paint, because the panel fills the photo.</summary>
    private static (float Red, float Green, float Blue) MedianColor(ReducedPhoto photo)
    {
        int step = Math.Max(1, photo.Red.Values.Length / 20_000);
        return (SampledMedian(photo.Red.Values, step), SampledMedian(photo.Green.Values, step), SampledMedian(photo.Blue.Values, step));
    }

    private static float SampledMedian(float[] values, int step)
    {
        var sample = new float[(values.Length + step - 1) / step];
        for (int i = 0; i < sample.Length; i++)
        {
            sample[i] = values[i * step];
        }

        Array.Sort(sample);
        return sample[sample.Length / 2];
    }

    private static (List<double> Reds, List<double> Blues) CollectLight(
        ReducedPhoto photo, bool[] cells, int across, (float Red, float Green, float Blue) paint)
    {
        var reds = new List<double>();
        var blues = new List<double>();
        int width = photo.Red.Width;
        for (int y = 0; y < photo.Red.Height; y++)
        {
            ReadOnlySpan<bool> near = cells.AsSpan(y / CellPx * across, across);
            if (!near.Contains(true))
            {
                continue;
            }

            for (int x = 0; x < width; x++)
            {
                if (!near[x / CellPx] || photo.Clipped[(y * width) + x])
                {
                    continue;
                }

                float r = photo.Red[x, y];
                float g = photo.Green[x, y];
                float b = photo.Blue[x, y];
                float least = Math.Min(r - paint.Red, Math.Min(g - paint.Green, b - paint.Blue));
                if (least >= MinHighlightOverPaint && Math.Max(r, Math.Max(g, b)) <= MaxUsableLevel)
                {
                    reds.Add(Math.Log((r - paint.Red) / (g - paint.Green)));
                    blues.Add(Math.Log((b - paint.Blue) / (g - paint.Green)));
                }
            }
        }

        return (reds, blues);
    }

    private static double Median(List<double> values)
    {
        double[] sorted = [.. values];
        Array.Sort(sorted);
        return sorted[sorted.Length / 2];
    }

    /// <summary>Median distance from the median.</summary>
    private static double Spread(List<double> values, double median)
    {
        var distances = new double[values.Count];
        for (int i = 0; i < distances.Length; i++)
        {
            distances[i] = Math.Abs(values[i] - median);
        }

        Array.Sort(distances);
        return distances[distances.Length / 2];
    }
}
