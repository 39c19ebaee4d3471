using CoatScan.Metrics;
using Microsoft.ML.Data;

namespace CoatScan.Classification;

/// <summary>The planes as sRGB bytes, which is what the network was trained on.</summary>
internal sealed class PanelBitmap
{
    private const int TableSize = 4096;

    private static readonly byte[] EncodedByLinear = BuildTable();

    private readonly byte[] _bgra;

    public PanelBitmap(PanelPlanes planes)
    {
        ArgumentNullException.ThrowIfNull(planes);
        Width = planes.Width;
        Height = planes.Height;
        var red = planes.Red.Values;
        var green = planes.Green.Values;
        var blue = planes.Blue.Values;
        _bgra = new byte[checked(red.Length * 4)];
        for (var i = 0; i < red.Length; i++)
        {
            var at = i * 4;
            _bgra[at] = Encode(blue[i]);
            _bgra[at + 1] = Encode(green[i]);
            _bgra[at + 2] = Encode(red[i]);
            _bgra[at + 3] = 255;
        }
    }

    public int Width { get; }

    public int Height { get; }

    /// <summary>A copy of one rectangle; the caller disposes of it.</summary>
    public MLImage Crop(TileBox box)
    {
        if (box == new TileBox(0, 0, Width, Height))
        {
            return MLImage.CreateFromPixels(Width, Height, MLPixelFormat.Bgra32, _bgra);
        }

        var rowBytes = box.Width * 4;
        var pixels = new byte[rowBytes * box.Height];
        for (var y = 0; y < box.Height; y++)
        {
            var from = (((box.Y + y) * Width) + box.X) * 4;
            _bgra.AsSpan(from, rowBytes).CopyTo(pixels.AsSpan(y * rowBytes));
        }

        return MLImage.CreateFromPixels(box.Width, box.Height, MLPixelFormat.Bgra32, pixels);
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
}
