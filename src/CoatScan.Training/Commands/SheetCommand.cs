using CoatScan.DemoPanels;
using CoatScan.Imaging;
using CoatScan.Training.Rendering;

namespace CoatScan.Training.Commands;

/// <summary>Puts many rendered panels on one picture, one row a class, to be looked at.</summary>
internal static class SheetCommand
{
    private const int CellPx = 200;

    private const int DefaultCount = 6;

    public static void Run(string[] words, TextWriter output)
    {
        var arguments = new Arguments(words, ["out", "class", "seed", "count", "harsh", "shifted", "second"]);
        var file = arguments.Required("out");
        IReadOnlyList<string> rows = arguments.Optional("class") is { } only ? [only] : VisualClassIds.All;
        var count = arguments.Whole("count", DefaultCount);
        var firstSeed = arguments.Whole("seed", 1);
        var harsh = arguments.Whole("harsh", 0) != 0;
        var look = arguments.Whole("shifted", 0) != 0 ? PanelLook.Shifted : PanelLook.Usual;
        var second = arguments.Optional("second");
        var sheet = new byte[rows.Count * CellPx * count * CellPx * 3];
        Parallel.For(0, rows.Count * count, index =>
        {
            var seed = firstSeed + (index % count);
            var panel = RenderedPhotos.Panel(rows[index / count], seed, look, second);
            var rgb = harsh
                ? HarshCamera.Spoil(panel.Rgb, panel.WidthPx, panel.HeightPx, new Random(seed))
                : panel.Rgb;
            Paste(rgb, panel, sheet, index % count * CellPx, index / count * CellPx, count * CellPx);
        });
        File.WriteAllBytes(file, PhotoEncoder.EncodePng(sheet, count * CellPx, rows.Count * CellPx));
        output.WriteLine($"rows: {string.Join(", ", rows)}");
    }

    // Every sheet pixel is the mean of the panel pixels it covers; the longer side fills the cell.
    private static void Paste(byte[] rgb, DemoPanel panel, byte[] sheet, int left, int top, int sheetWidthPx)
    {
        var step = Math.Max(panel.WidthPx, panel.HeightPx) / (double)CellPx;
        for (var y = 0; y < (int)(panel.HeightPx / step); y++)
        {
            for (var x = 0; x < (int)(panel.WidthPx / step); x++)
            {
                for (var channel = 0; channel < 3; channel++)
                {
                    sheet[((((top + y) * sheetWidthPx) + left + x) * 3) + channel] =
                        Mean(rgb, panel.WidthPx, x * step, y * step, step, channel);
                }
            }
        }
    }

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
