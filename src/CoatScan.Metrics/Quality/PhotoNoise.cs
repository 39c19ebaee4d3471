namespace CoatScan.Metrics.Quality;

/// <summary>Noise of a photo: standard deviation from pixel to pixel, CIE L*, 0 or more.</summary>
/// <remarks>
/// <para>Per tile of 32 x 32 px the median absolute response to the kernel [1 -2 1; -2 4 -2; 1 -2 1], which ignores slopes and
/// straight edges, over 6 x 0.6745. Of the tiles the quietest quarter counts, so that texture of the panel is not taken for noise.</para>
/// <para>Noise that a camera has smoothed into blotches is underestimated. Tiles with clipped pixels and tiles darker than L* 2 are
/// left out, for there noise cannot show; null if no tile is left. Cost: O(n) over at most 144 tiles. Deterministic.</para>
/// <para>Source: Immerkaer, Computer Vision and Image Understanding 64(2), 300-302, 1996 (kernel; here with a median).</para>
/// </remarks>
public static class PhotoNoise
{
    private const int TilePx = 32;
    private const int TilesPerSide = 12;
    private const double LeastLightness = 2.0;
    private const double QuietShare = 0.25;

    /// <summary>Measures a lightness plane; null where no tile can tell.</summary>
    /// <exception cref="ArgumentException">There is not one flag a pixel.</exception>
    public static double? Measure(Plane lightness, ReadOnlySpan<bool> clipped)
    {
        ArgumentNullException.ThrowIfNull(lightness);
        if (clipped.Length != lightness.Values.Length)
        {
            throw new ArgumentException($"{clipped.Length} flags for {lightness.Values.Length} pixels.", nameof(clipped));
        }

        var tiles = new List<double>();
        var responses = new float[(TilePx - 2) * (TilePx - 2)];
        foreach (var top in Starts(lightness.Height))
        {
            foreach (var left in Starts(lightness.Width))
            {
                if (IsUsable(lightness, clipped, left, top))
                {
                    tiles.Add(OfTile(lightness, left, top, responses));
                }
            }
        }

        if (tiles.Count == 0)
        {
            return null;
        }

        tiles.Sort();
        return tiles[(int)(QuietShare * (tiles.Count - 1))];
    }

    private static IEnumerable<int> Starts(int length)
    {
        var count = Math.Min(TilesPerSide, length / TilePx);
        for (var i = 0; i < count; i++)
        {
            yield return (int)((long)i * (length - TilePx) / Math.Max(1, count - 1));
        }
    }

    private static bool IsUsable(Plane lightness, ReadOnlySpan<bool> clipped, int left, int top)
    {
        var sum = 0.0;
        for (var y = top; y < top + TilePx; y++)
        {
            var start = (y * lightness.Width) + left;
            if (clipped.Slice(start, TilePx).Contains(true))
            {
                return false;
            }

            foreach (var value in lightness.Values.AsSpan(start, TilePx))
            {
                sum += value;
            }
        }

        return sum >= LeastLightness * TilePx * TilePx;
    }

    private static double OfTile(Plane lightness, int left, int top, float[] responses)
    {
        var i = 0;
        for (var y = top + 1; y < top + TilePx - 1; y++)
        {
            ReadOnlySpan<float> above = lightness.Row(y - 1);
            ReadOnlySpan<float> here = lightness.Row(y);
            ReadOnlySpan<float> below = lightness.Row(y + 1);
            for (var x = left + 1; x < left + TilePx - 1; x++)
            {
                var cross = above[x] + below[x] + here[x - 1] + here[x + 1];
                var corners = above[x - 1] + above[x + 1] + below[x - 1] + below[x + 1];
                responses[i++] = Math.Abs((4.0f * here[x]) - (2.0f * cross) + corners);
            }
        }

        Array.Sort(responses);
        return responses[responses.Length / 2] / (6.0 * 0.6745);
    }
}
