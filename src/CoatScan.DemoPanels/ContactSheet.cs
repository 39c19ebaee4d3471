using CoatScan.Imaging;

namespace CoatScan.DemoPanels;

/// <summary>Many panels side by side in one picture, for people to look at.</summary>
public sealed class ContactSheet
{
    private ContactSheet(int widthPx, int heightPx, byte[] rgb)
    {
        WidthPx = widthPx;
        HeightPx = heightPx;
        Rgb = rgb;
    }

    /// <summary>Width, pixels.</summary>
    public int WidthPx { get; }

    /// <summary>Height, pixels.</summary>
    public int HeightPx { get; }

    /// <summary>8-bit sRGB: red, green, blue of every pixel, row by row.</summary>
    public byte[] Rgb { get; }

    /// <summary>Lays panels out in rows, each reduced by a whole factor.</summary>
    /// <param name="panels">Panels of one size, at least one.</param>
    /// <param name="columns">Panels a row, at least 1.</param>
    /// <param name="reduction">Side of the square of pixels averaged into one, at least 1, at most the panels' smaller side.</param>
    /// <param name="showMask">Whether the fault's pixels are tinted.</param>
    /// <exception cref="ArgumentException">There is no panel, or sizes differ.</exception>
    /// <exception cref="ArgumentOutOfRangeException">Columns or reduction is out of range.</exception>
    public static ContactSheet Compose(IReadOnlyList<DemoPanel> panels, int columns, int reduction, bool showMask = false)
    {
        ArgumentNullException.ThrowIfNull(panels);
        if (panels.Count == 0 || panels.Any(p => p.WidthPx != panels[0].WidthPx || p.HeightPx != panels[0].HeightPx))
        {
            throw new ArgumentException("A contact sheet needs at least one panel, all of one size.", nameof(panels));
        }

        ArgumentOutOfRangeException.ThrowIfLessThan(columns, 1);
        ArgumentOutOfRangeException.ThrowIfLessThan(reduction, 1);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(reduction, Math.Min(panels[0].WidthPx, panels[0].HeightPx));
        var tileWidth = panels[0].WidthPx / reduction;
        var tileHeight = panels[0].HeightPx / reduction;
        var rows = (panels.Count + columns - 1) / columns;
        var sheet = new ContactSheet(tileWidth * columns, tileHeight * rows, new byte[3 * tileWidth * columns * tileHeight * rows]);
        for (var i = 0; i < panels.Count; i++)
        {
            sheet.Place(panels[i], i % columns * tileWidth, i / columns * tileHeight, reduction, showMask);
        }

        return sheet;
    }

    /// <summary>The sheet as JPEG.</summary>
    /// <param name="quality">JPEG quality, [1, 100].</param>
    public byte[] EncodeJpeg(int quality) => PhotoEncoder.EncodeJpeg(Rgb, WidthPx, HeightPx, quality);

    private void Place(DemoPanel panel, int left, int top, int reduction, bool showMask)
    {
        var area = reduction * reduction;
        for (var y = 0; y < panel.HeightPx / reduction; y++)
        {
            for (var x = 0; x < panel.WidthPx / reduction; x++)
            {
                int red = 0, green = 0, blue = 0, covered = 0;
                for (var dy = 0; dy < reduction; dy++)
                {
                    for (var dx = 0; dx < reduction; dx++)
                    {
                        var at = (((y * reduction) + dy) * panel.WidthPx) + (x * reduction) + dx;
                        red += panel.Rgb[3 * at];
                        green += panel.Rgb[(3 * at) + 1];
                        blue += panel.Rgb[(3 * at) + 2];
                        covered += panel.Mask[at] ? 1 : 0;
                    }
                }

                var tint = showMask ? 110 * covered / area : 0;
                var to = 3 * (((top + y) * WidthPx) + left + x);
                Rgb[to] = (byte)Math.Min(255, (red / area) + tint);
                Rgb[to + 1] = (byte)Math.Max(0, (green / area) - (tint / 2));
                Rgb[to + 2] = (byte)Math.Min(255, (blue / area) + tint);
            }
        }
    }
}
