using System.Buffers;
using CoatScan.Metrics;

namespace CoatScan.DemoPanels.Surface;

/// <summary>Blurring of planes: three running means, close to a Gaussian and independent of its width in cost.</summary>
internal static class Blur
{
    /// <summary>A blurred copy.</summary>
    public static Plane Soft(Plane source, float sigmaPx)
    {
        var result = new Plane(source.Width, source.Height, (float[])source.Values.Clone());
        InPlace(result, sigmaPx);
        return result;
    }

    /// <summary>Three box blurs of the whole-pixel width nearest to the wanted variance: (w^2 - 1) / 12 each.</summary>
    public static void InPlace(Plane plane, float sigmaPx)
    {
        var radius = (int)MathF.Round((MathF.Sqrt((4f * sigmaPx * sigmaPx) + 1f) - 1f) / 2f);
        if (radius < 1)
        {
            return;
        }

        var scratch = ArrayPool<float>.Shared.Rent(plane.Values.Length);
        for (var pass = 0; pass < 3; pass++)
        {
            Rows(plane.Values, scratch, plane.Width, plane.Height, radius);
            Columns(scratch, plane.Values, plane.Width, plane.Height, radius);
        }

        ArrayPool<float>.Shared.Return(scratch);
    }

    private static void Rows(float[] from, float[] to, int width, int height, int radius)
    {
        var scale = 1f / ((2 * radius) + 1);
        for (var y = 0; y < height; y++)
        {
            var row = from.AsSpan(y * width, width);
            var output = to.AsSpan(y * width, width);
            var sum = row[0] * (radius + 1);
            for (var i = 1; i <= radius; i++)
            {
                sum += row[Math.Min(i, width - 1)];
            }

            for (var x = 0; x < width; x++)
            {
                output[x] = sum * scale;
                sum += row[Math.Min(x + radius + 1, width - 1)] - row[Math.Max(x - radius, 0)];
            }
        }
    }

    private static void Columns(float[] from, float[] to, int width, int height, int radius)
    {
        var scale = 1f / ((2 * radius) + 1);
        var sums = new float[width];
        for (var y = -radius; y <= radius; y++)
        {
            var row = from.AsSpan(Math.Clamp(y, 0, height - 1) * width, width);
            for (var x = 0; x < width; x++)
            {
                sums[x] += row[x];
            }
        }

        for (var y = 0; y < height; y++)
        {
            var entering = from.AsSpan(Math.Min(y + radius + 1, height - 1) * width, width);
            var leaving = from.AsSpan(Math.Max(y - radius, 0) * width, width);
            var output = to.AsSpan(y * width, width);
            for (var x = 0; x < width; x++)
            {
                output[x] = sums[x] * scale;
                sums[x] += entering[x] - leaving[x];
            }
        }
    }
}
