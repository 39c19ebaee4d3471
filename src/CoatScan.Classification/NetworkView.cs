using CoatScan.Metrics;

namespace CoatScan.Classification;

/// <summary>The whole panel as the network looks at it: one square picture in sRGB, squeezed along the longer side.</summary>
/// <remarks>
/// Averaged in linear light, so that a thin bright scratch keeps its light when the photo is made smaller; interpolated
/// linearly where it is made larger. The network was trained on pictures that went through this very code.
/// </remarks>
internal static class NetworkView
{
    /// <summary>Side of the picture, pixels.</summary>
    public const int SidePx = 448;

    /// <summary>Bytes of a pixel: red, green, blue, and 255.</summary>
    public const int PixelBytes = 4;

    /// <summary>Bytes of a picture.</summary>
    public const int Length = SidePx * SidePx * PixelBytes;

    private const int TableSize = 4096;

    private static readonly byte[] EncodedByLinear = BuildTable();

    /// <returns>Red, green, blue, 255 for every pixel, row by row.</returns>
    public static byte[] Of(PanelPlanes planes)
    {
        ArgumentNullException.ThrowIfNull(planes);
        var columns = Weights(planes.Width);
        var rows = Weights(planes.Height);
        var view = new byte[Length];
        Array.Fill(view, byte.MaxValue);
        Resample(planes.Red, columns, rows, view, 0);
        Resample(planes.Green, columns, rows, view, 1);
        Resample(planes.Blue, columns, rows, view, 2);
        return view;
    }

    private static void Resample(Plane plane, Tap[] columns, Tap[] rows, byte[] view, int channel)
    {
        var sum = new float[plane.Width];
        for (var y = 0; y < SidePx; y++)
        {
            var row = rows[y];
            Array.Clear(sum);
            for (var k = 0; k < row.Weights.Length; k++)
            {
                System.Numerics.Tensors.TensorPrimitives.MultiplyAdd(
                    plane.Row(row.First + k), row.Weights[k], sum, sum);
            }

            for (var x = 0; x < SidePx; x++)
            {
                var column = columns[x];
                var value = 0f;
                for (var k = 0; k < column.Weights.Length; k++)
                {
                    value += sum[column.First + k] * column.Weights[k];
                }

                view[(((y * SidePx) + x) * PixelBytes) + channel] = Encode(value);
            }
        }
    }

    // For every output pixel the input pixels under it with the share each covers, or the two nearest ones.
    private static Tap[] Weights(int lengthPx)
    {
        var step = lengthPx / (double)SidePx;
        var taps = new Tap[SidePx];
        for (var i = 0; i < SidePx; i++)
        {
            var center = (i + 0.5) * step;
            var half = Math.Max(step, 1) / 2;
            var from = Math.Clamp(center - half, 0, lengthPx - 1e-6);
            var to = Math.Clamp(center + half, 1e-6, lengthPx);
            var first = (int)from;
            var last = Math.Min(lengthPx - 1, (int)Math.Ceiling(to) - 1);
            var weights = new float[last - first + 1];
            var total = 0.0;
            for (var k = 0; k < weights.Length; k++)
            {
                weights[k] = (float)(Math.Min(to, first + k + 1) - Math.Max(from, first + k));
                total += weights[k];
            }

            for (var k = 0; k < weights.Length; k++)
            {
                weights[k] = (float)(weights[k] / total);
            }

            taps[i] = new Tap(first, weights);
        }

        return taps;
    }

    private static byte Encode(float linear) =>
        EncodedByLinear[(int)((Math.Clamp(linear, 0f, 1f) * (TableSize - 1)) + 0.5f)];

    // IEC 61966-2-1:1999; a table because the power would cost more than the network's first layer.
    private static byte[] BuildTable()
    {
        var table = new byte[TableSize];
        for (var i = 0; i < TableSize; i++)
        {
            var linear = i / (double)(TableSize - 1);
            var encoded = linear <= 0.0031308 ? 12.92 * linear : (1.055 * Math.Pow(linear, 1 / 2.4)) - 0.055;
            table[i] = (byte)Math.Round(encoded * 255);
        }

        return table;
    }

    private readonly record struct Tap(int First, float[] Weights);
}
