using CoatScan.Findings;
using CoatScan.Metrics.Color;

namespace CoatScan.Metrics.Zones;

/// <summary>Color and light of one rectangle of a panel, from a grid of four by four tiles.</summary>
/// <remarks>
/// Colors are means of linear light, then CIELAB. Clipped pixels are left out. What the decoder rounded away is given back to the mean. Cost: by the area of the rectangle. Source: means before
/// conversion, as light adds up; the grid is our own.
/// </remarks>
internal sealed class ZoneColor
{
    /// <summary>Tiles along a side.</summary>
    internal const int TilesPerSide = 4;

    /// <summary>Shortest side, pixels of the planes: three a tile.</summary>
    internal const int LeastSidePx = 3 * TilesPerSide;

    private readonly Sum[] _tiles = new Sum[TilesPerSide * TilesPerSide];
    private readonly Sum _whole;

    private ZoneColor(PanelPlanes panel, StoredColor stored, int left, int top, int width, int height)
    {
        Stored = stored;
        (CenterX, CenterY, Width, Height) = (left + (width / 2.0), top + (height / 2.0), width, height);
        var clipped = 0;
        for (var y = top; y < top + height; y++)
        {
            for (var x = left; x < left + width; x++)
            {
                var i = (y * panel.Width) + x;
                clipped += panel.Clipped[i] ? 1 : 0;
                if (!panel.Clipped[i])
                {
                    var tile = ((y - top) * TilesPerSide / height * TilesPerSide) + ((x - left) * TilesPerSide / width);
                    _tiles[tile].Add(panel.Red.Values[i], panel.Green.Values[i], panel.Blue.Values[i]);
                    _whole.Add(panel.Red.Values[i], panel.Green.Values[i], panel.Blue.Values[i]);
                }
            }
        }

        ClippedShare = (double)clipped / (width * height);
    }

    internal double CenterX { get; }

    internal double CenterY { get; }

    internal int Width { get; }

    internal int Height { get; }

    /// <summary>Share of clipped pixels, [0, 1].</summary>
    internal double ClippedShare { get; }

    /// <summary>How well the color survived being stored.</summary>
    internal StoredColor Stored { get; }

    /// <summary>Mean color.</summary>
    internal LabColor Color => _whole.Mean is var (red, green, blue)
        ? Lab((red + Stored.Rounded.Red, green + Stored.Rounded.Green, blue + Stored.Rounded.Blue))
        : default;

    /// <summary>Colors of the tiles that have a pixel.</summary>
    internal IEnumerable<LabColor> TileColors => _tiles.Where(tile => tile.Count > 0).Select(tile => Lab(tile.Mean));

    /// <summary>Natural logarithm of luminance tile by tile, row by row; null for a tile without pixels or light.</summary>
    internal double?[] LogLuminances => Array.ConvertAll(_tiles, tile => tile.LogLuminance);

    /// <summary>Reads a zone; null where it is too small on the planes.</summary>
    internal static ZoneColor? Of(PanelPlanes panel, PhotoZone zone, StoredColor stored)
    {
        var left = (int)Math.Round(zone.XPx / panel.OriginalPxPerPx);
        var top = (int)Math.Round(zone.YPx / panel.OriginalPxPerPx);
        var right = Math.Min((int)Math.Round((zone.XPx + zone.WidthPx) / panel.OriginalPxPerPx), panel.Width);
        var bottom = Math.Min((int)Math.Round((zone.YPx + zone.HeightPx) / panel.OriginalPxPerPx), panel.Height);
        return right - left < LeastSidePx || bottom - top < LeastSidePx
            ? null
            : new(panel, stored, left, top, right - left, bottom - top);
    }

    private static LabColor Lab((double Red, double Green, double Blue) light) =>
        CieLab.FromLinear(light.Red, light.Green, light.Blue);

    private struct Sum
    {
        private double _red;
        private double _green;
        private double _blue;

        internal int Count { get; private set; }

        internal readonly (double Red, double Green, double Blue) Mean =>
            (_red / Math.Max(Count, 1), _green / Math.Max(Count, 1), _blue / Math.Max(Count, 1));

        internal readonly double? LogLuminance =>
            Mean is var (red, green, blue) && CieLab.ToXyz(red, green, blue).Y is > 1e-5 and var y ? Math.Log(y) : null;

        internal void Add(double red, double green, double blue)
        {
            Count++;
            _red += red;
            _green += green;
            _blue += blue;
        }
    }
}
