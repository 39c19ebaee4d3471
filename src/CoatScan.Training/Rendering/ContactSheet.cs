using CoatScan.DemoPanels;
using CoatScan.Imaging;

namespace CoatScan.Training.Rendering;

/// <summary>Many rendered pictures on one, row by row, to be looked at.</summary>
/// <param name="columns">Pictures a row, at least 1.</param>
/// <param name="rows">Rows, at least 1.</param>
internal sealed class ContactSheet(int columns, int rows)
{
    /// <summary>Side of the square that a picture is fitted into, pixels.</summary>
    public const int CellPx = 200;

    private readonly byte[] _rgb = new byte[rows * CellPx * columns * CellPx * 3];

    private readonly int _widthPx = columns * CellPx;

    /// <summary>Puts a picture into a cell; its longer side fills the cell. Different cells may be filled at the same time.</summary>
    /// <param name="column">From 0, left.</param>
    /// <param name="row">From 0, top.</param>
    /// <param name="panel">Gives the size.</param>
    /// <param name="rgb">8-bit red, green, blue, row by row.</param>
    public void Paste(int column, int row, DemoPanel panel, byte[] rgb)
    {
        // Every sheet pixel is the mean of the picture's pixels it covers.
        var step = Math.Max(panel.WidthPx, panel.HeightPx) / (double)CellPx;
        for (var y = 0; y < (int)(panel.HeightPx / step); y++)
        {
            for (var x = 0; x < (int)(panel.WidthPx / step); x++)
            {
                for (var channel = 0; channel < 3; channel++)
                {
                    _rgb[(((((row * CellPx) + y) * _widthPx) + (column * CellPx) + x) * 3) + channel] =
                        Mean(rgb, panel.WidthPx, x * step, y * step, step, channel);
                }
            }
        }
    }

    public byte[] EncodePng() => PhotoEncoder.EncodePng(_rgb, _widthPx, _rgb.Length / (3 * _widthPx));

    private static byte Mean(byte[] rgb, int widthPx, double fromX, double fromY, double step, int channel)
    {
        var sum = 0;
        var count = 0;
        for (var y = (int)fromY; y < fromY + step - 0.5; y++)
        {
            for (var x = (int)fromX; x < fromX + step - 0.5; x++)
            {
                sum += rgb[(((y * widthPx) + x) * 3) + channel];
                count++;
            }
        }

        return (byte)(sum / Math.Max(1, count));
    }
}
