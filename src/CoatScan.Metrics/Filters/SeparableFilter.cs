using System.Numerics;

namespace CoatScan.Metrics.Filters;

/// <summary>Correlates a plane with the product of a horizontal and a vertical kernel, each given by its right half.</summary>
/// <remarks>
/// Rows are combined vertically into one row buffer and that row is filtered horizontally at once, so no scratch plane is
/// needed. Borders are mirrored with the edge sample repeated.
/// </remarks>
internal static class SeparableFilter
{
    internal static void Apply(
        Plane source,
        Plane target,
        float[] horizontal,
        float[] vertical,
        KernelParity horizontalParity,
        KernelParity verticalParity)
    {
        ArgumentNullException.ThrowIfNull(source);
        ArgumentNullException.ThrowIfNull(target);
        if (source.Width != target.Width || source.Height != target.Height || ReferenceEquals(source.Values, target.Values))
        {
            throw new ArgumentException("The target must be another plane of the same size.", nameof(target));
        }

        var radius = horizontal.Length - 1;
        var padded = new float[source.Width + (2 * radius)];
        for (var y = 0; y < source.Height; y++)
        {
            var middle = padded.AsSpan(radius, source.Width);
            CombineRows(source, y, vertical, verticalParity, middle);
            MirrorEnds(padded, radius, source.Width);
            FilterRow(padded, horizontal, horizontalParity, target.Row(y));
        }
    }

    /// <summary>Index inside [0, length) of a position mirrored at both ends, the edge sample repeated.</summary>
    internal static int Mirror(int position, int length)
    {
        var period = 2 * length;
        var folded = ((position % period) + period) % period;
        return folded < length ? folded : period - 1 - folded;
    }

    private static void CombineRows(Plane source, int y, float[] kernel, KernelParity parity, Span<float> row)
    {
        var width = source.Width;
        var values = source.Values;
        Scale(values.AsSpan(y * width, width), kernel[0], row);
        for (var k = 1; k < kernel.Length; k++)
        {
            var below = values.AsSpan(Mirror(y + k, source.Height) * width, width);
            var above = values.AsSpan(Mirror(y - k, source.Height) * width, width);
            AddPair(row, below, above, kernel[k], parity == KernelParity.Even ? 1.0f : -1.0f);
        }
    }

    private static void Scale(Span<float> source, float weight, Span<float> row)
    {
        var step = Vector<float>.Count;
        var x = 0;
        for (; x <= row.Length - step; x += step)
        {
            (weight * new Vector<float>(source[x..])).CopyTo(row[x..]);
        }

        for (; x < row.Length; x++)
        {
            row[x] = weight * source[x];
        }
    }

    private static void AddPair(Span<float> row, Span<float> plus, Span<float> minus, float weight, float sign)
    {
        var step = Vector<float>.Count;
        var x = 0;
        var weights = new Vector<float>(weight);
        var signs = new Vector<float>(sign);
        for (; x <= row.Length - step; x += step)
        {
            var pair = new Vector<float>(plus[x..]) + (signs * new Vector<float>(minus[x..]));
            (new Vector<float>(row[x..]) + (weights * pair)).CopyTo(row[x..]);
        }

        for (; x < row.Length; x++)
        {
            row[x] += weight * (plus[x] + (sign * minus[x]));
        }
    }

    private static void MirrorEnds(float[] padded, int radius, int width)
    {
        for (var k = 1; k <= radius; k++)
        {
            padded[radius - k] = padded[radius + Mirror(-k, width)];
            padded[radius + width - 1 + k] = padded[radius + Mirror(width - 1 + k, width)];
        }
    }

    private static void FilterRow(float[] padded, float[] kernel, KernelParity parity, Span<float> row)
    {
        var radius = kernel.Length - 1;
        var step = Vector<float>.Count;
        var sign = parity == KernelParity.Even ? 1.0f : -1.0f;
        var signs = new Vector<float>(sign);
        var x = 0;
        for (; x <= row.Length - step; x += step)
        {
            var sum = kernel[0] * new Vector<float>(padded, x + radius);
            for (var k = 1; k < kernel.Length; k++)
            {
                var pair = new Vector<float>(padded, x + radius + k)
                    + (signs * new Vector<float>(padded, x + radius - k));
                sum += kernel[k] * pair;
            }

            sum.CopyTo(row[x..]);
        }

        for (; x < row.Length; x++)
        {
            var sum = kernel[0] * padded[x + radius];
            for (var k = 1; k < kernel.Length; k++)
            {
                sum += kernel[k] * (padded[x + radius + k] + (sign * padded[x + radius - k]));
            }

            row[x] = sum;
        }
    }
}
