namespace CoatScan.Metrics.Filters;

/// <summary>Shrinks a plane by exact area averaging: each new pixel is the mean of the area that it covers.</summary>
/// <remarks>Cost: O(n) time, one row of scratch. Deterministic. Use on linear light; averages of encoded values are biased.</remarks>
public static class AreaReduction
{
    /// <summary>Size with the long side at most this many pixels and the aspect kept; the same size if already small.</summary>
    public static (int Width, int Height) Fit(int width, int height, int longSidePx)
    {
        var longSide = Math.Max(width, height);
        if (longSide <= longSidePx)
        {
            return (width, height);
        }

        var factor = (double)longSidePx / longSide;
        return (Math.Max(1, (int)Math.Round(width * factor)), Math.Max(1, (int)Math.Round(height * factor)));
    }

    /// <summary>A plane of the given size, neither side larger than the source's.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The size is larger than the source or below 1.</exception>
    public static Plane Apply(Plane source, int width, int height)
    {
        var target = new Plane(width, height);
        Apply(source, target);
        return target;
    }

    internal static void Apply(Plane source, Plane target)
    {
        ArgumentNullException.ThrowIfNull(source);
        var (width, height) = (target.Width, target.Height);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(width, source.Width, nameof(width));
        ArgumentOutOfRangeException.ThrowIfGreaterThan(height, source.Height, nameof(height));
        if (width == source.Width && height == source.Height)
        {
            source.Values.CopyTo(target.Values, 0);
            return;
        }

        var row = new float[width];
        var perTarget = (double)source.Height / height;
        for (var y = 0; y < height; y++)
        {
            var start = y * perTarget;
            var end = (y + 1) * perTarget;
            var targetRow = target.Row(y);
            targetRow.Clear();
            var last = Math.Min((int)Math.Ceiling(end), source.Height);
            for (var sourceY = (int)start; sourceY < last; sourceY++)
            {
                var weight = (float)((Math.Min(end, sourceY + 1) - Math.Max(start, sourceY)) / perTarget);
                if (weight <= 0.0f)
                {
                    continue;
                }

                ReduceRow(source.Row(sourceY), row);
                for (var x = 0; x < width; x++)
                {
                    targetRow[x] += weight * row[x];
                }
            }
        }
    }

    private static void ReduceRow(ReadOnlySpan<float> source, Span<float> target)
    {
        var perTarget = (double)source.Length / target.Length;
        for (var x = 0; x < target.Length; x++)
        {
            var start = x * perTarget;
            var end = Math.Min((x + 1) * perTarget, source.Length);
            var first = (int)start;
            var last = (int)end;
            var sum = 0.0f;
            for (var i = first; i < last; i++)
            {
                sum += source[i];
            }

            sum -= (float)(start - first) * source[first];
            if (last < source.Length)
            {
                sum += (float)(end - last) * source[last];
            }

            target[x] = sum / (float)perTarget;
        }
    }
}
