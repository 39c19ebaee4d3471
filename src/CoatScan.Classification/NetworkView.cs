using System.Runtime.InteropServices;
using CoatScan.Metrics;

namespace CoatScan.Classification;

/// <summary>The whole panel as the network looks at it: one square picture in sRGB, squeezed along the longer side.</summary>
/// <remarks>
/// Averaged in linear light, so that a thin bright scratch keeps its light when the photo is made smaller; interpolated
/// linearly where it is made larger. The network was trained on pictures of the larger side that went through this very code, and turned and
/// zoomed. Small faults need the larger side; real photos, with all their clutter, are told apart better at the smaller one. So it looks at both.
/// </remarks>
internal static class NetworkView
{
    /// <summary>Side of the picture, pixels.</summary>
    public const int SidePx = 448;

    /// <summary>Side of the smaller picture, pixels.</summary>
    public const int SmallSidePx = 320;

    /// <summary>Bytes of a pixel: red, green, blue, and 255.</summary>
    public const int PixelBytes = 4;

    private const int TableSize = 4096;

    private static readonly byte[] EncodedByLinear = BuildTable();

    /// <param name="planes">The normalized panel.</param>
    /// <param name="sidePx">Side of the picture, pixels.</param>
    /// <returns>Red, green, blue, 255 for every pixel, row by row.</returns>
    public static byte[] Of(PanelPlanes planes, int sidePx)
    {
        ArgumentNullException.ThrowIfNull(planes);
        var columns = Weights(planes.Width, sidePx);
        var rows = Weights(planes.Height, sidePx);
        var view = new byte[sidePx * sidePx * PixelBytes];
        Array.Fill(view, byte.MaxValue);
        Resample(planes.Red, columns, rows, view, 0);
        Resample(planes.Green, columns, rows, view, 1);
        Resample(planes.Blue, columns, rows, view, 2);
        return view;
    }

    /// <summary>The picture with left and right changed.</summary>
    /// <param name="view">Picture.</param>
    /// <param name="sidePx">Its side, pixels.</param>
    public static byte[] Mirror(byte[] view, int sidePx)
    {
        var mirrored = new byte[view.Length];
        var from = MemoryMarshal.Cast<byte, int>(view.AsSpan());
        var to = MemoryMarshal.Cast<byte, int>(mirrored.AsSpan());
        for (var at = 0; at < from.Length; at += sidePx)
        {
            from.Slice(at, sidePx).CopyTo(to[at..]);
            to.Slice(at, sidePx).Reverse();
        }

        return mirrored;
    }

    private static void Resample(Plane plane, Tap[] columns, Tap[] rows, byte[] view, int channel)
    {
        var sum = new float[plane.Width];
        for (var y = 0; y < rows.Length; y++)
        {
            var row = rows[y];
            Array.Clear(sum);
            for (var k = 0; k < row.Weights.Length; k++)
            {
                System.Numerics.Tensors.TensorPrimitives.MultiplyAdd(
                    plane.Row(row.First + k), row.Weights[k], sum, sum);
            }

            for (var x = 0; x < columns.Length; x++)
            {
                var column = columns[x];
                var value = 0f;
                for (var k = 0; k < column.Weights.Length; k++)
                {
                    value += sum[column.First + k] * column.Weights[k];
                }

                view[(((y * columns.Length) + x) * PixelBytes) + channel] = Encode(value);
            }
        }
    }

    // For every output pixel the input pixels under it with the share each covers, or the two nearest ones.
    private static Tap[] Weights(int lengthPx, int sidePx)
    {
        var step = lengthPx / (double)sidePx;
        var taps = new Tap[sidePx];
        for (var i = 0; i < sidePx; i++)
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
