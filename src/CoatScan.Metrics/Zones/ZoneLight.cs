using CoatScan.Metrics.Color;

namespace CoatScan.Metrics.Zones;

/// <summary>Whether two zones lie in the same light, as far as the photo can tell.</summary>
/// <param name="Reason">Why they cannot be compared; null if nothing speaks against it.</param>
/// <param name="LogStep">Natural logarithm of the light's step between the zones that their own slopes foretell, 0 or more.</param>
/// <remarks>
/// <para>Refused: a zone under 12 px on the planes, clipped by over 1 %, or under L* 5; light that differs inside a zone by over 30 %
/// from tile to tile (a highlight, a shadow's edge); a slope of light inside the zones that over their distance makes over 20 %; zones
/// that differ in brightness alone by over 25 %, as shade and a lighter paint do alike; and a stretch between them, over a tenth of the
/// way, that has the color of a zone at another brightness, which is a shadow's edge.</para>
/// <para>A soft reflection that lies over one zone alone makes it paler as fading does; nothing in one photo tells them apart.</para>
/// <para>Source: equal chromaticity at another luminance as the sign of shade, common practice; the limits are our own.</para>
/// </remarks>
internal sealed record ZoneLight(string? Reason, double LogStep)
{
    internal const string TooSmall = "a zone is too small: 12 px of the reduced photo are needed on each side";
    internal const string Clipped = "a zone is clipped to white";
    internal const string TooDark = "a zone is too dark to have a color";
    internal const string Uneven = "the light differs inside a zone: a highlight or the edge of a shadow lies in it";
    internal const string FallsOff = "the light falls off from one zone to the other";
    internal const string OnlyBrightness = "the zones differ in brightness alone: shade and a lighter paint look alike here";
    internal const string EdgeBetween = "the edge of a shadow or of a reflection lies between the zones";

    private const double LargestClippedShare = 0.01;
    private const double LeastLightness = 5.0;
    private const double LargestRatioInside = 1.3;
    private const double LargestStep = 0.2;
    private const int PathSamples = 64;
    private const int PathHalfWidthPx = 2;
    private const double LargestShareOfPath = 0.1;

    internal static ZoneLight Of(PanelPlanes panel, ZoneColor? first, ZoneColor? second)
    {
        if (first is null || second is null)
        {
            return new(TooSmall, 0.0);
        }

        var reason = Inside(first) ?? Inside(second);
        if (reason is not null)
        {
            return new(reason, 0.0);
        }

        var step = Math.Max(Foretold(first, first, second), Foretold(second, first, second));
        return new(
            step > LargestStep ? FallsOff
                : Shade.IsStrong(first.Color, second.Color) ? OnlyBrightness
                : HasEdgeBetween(panel, first, second) ? EdgeBetween
                : null,
            step);
    }

    private static string? Inside(ZoneColor zone)
    {
        var logs = zone.LogLuminances.OfType<double>().ToList();
        return zone.ClippedShare > LargestClippedShare ? Clipped
            : zone.Color.L < LeastLightness || logs.Count < zone.LogLuminances.Length ? TooDark
            : logs.Max() - logs.Min() > Math.Log(LargestRatioInside) ? Uneven
            : null;
    }

    // Least squares over the tiles. A slope within two standard errors of none counts as none.
    private static double Foretold(ZoneColor zone, ZoneColor first, ZoneColor second)
    {
        const int tiles = ZoneColor.TilesPerSide;
        const double middle = (tiles - 1) / 2.0;
        var logs = zone.LogLuminances;
        var (across, down, mean) = (0.0, 0.0, 0.0);
        var squares = 0.0;
        for (var i = 0; i < logs.Length; i++)
        {
            across += (i % tiles - middle) * logs[i]!.Value;
            down += (i / tiles - middle) * logs[i]!.Value;
            mean += logs[i]!.Value / logs.Length;
            squares += (i % tiles - middle) * (i % tiles - middle);
        }

        (across, down) = (across / squares, down / squares);
        var rest = 0.0;
        for (var i = 0; i < logs.Length; i++)
        {
            var off = logs[i]!.Value - mean - (across * (i % tiles - middle)) - (down * (i / tiles - middle));
            rest += off * off;
        }

        var error = Math.Sqrt(rest / (logs.Length - 3) / squares);
        var tilesX = (second.CenterX - first.CenterX) * tiles / zone.Width;
        var tilesY = (second.CenterY - first.CenterY) * tiles / zone.Height;
        var step = (across * tilesX) + (down * tilesY);
        var doubt = 2.0 * error * Math.Sqrt((tilesX * tilesX) + (tilesY * tilesY));
        return Math.Abs(step) > doubt ? Math.Abs(step) : 0.0;
    }

    private static bool HasEdgeBetween(PanelPlanes panel, ZoneColor first, ZoneColor second)
    {
        var (run, longest) = (0, 0);
        for (var k = 0; k < PathSamples; k++)
        {
            var share = (k + 0.5) / PathSamples;
            var color = ColorAt(
                panel,
                (int)(first.CenterX + (share * (second.CenterX - first.CenterX))),
                (int)(first.CenterY + (share * (second.CenterY - first.CenterY))));
            run = Shade.IsStrong(first.Color, color) && !Shade.IsNear(second.Color, color)
                || Shade.IsStrong(second.Color, color) && !Shade.IsNear(first.Color, color)
                    ? run + 1
                    : 0;
            longest = Math.Max(longest, run);
        }

        return longest > LargestShareOfPath * PathSamples;
    }

    private static LabColor ColorAt(PanelPlanes panel, int centerX, int centerY)
    {
        var (l, a, b, count) = (0.0, 0.0, 0.0, 0);
        for (var y = Math.Max(0, centerY - PathHalfWidthPx); y <= Math.Min(panel.Height - 1, centerY + PathHalfWidthPx); y++)
        {
            for (var x = Math.Max(0, centerX - PathHalfWidthPx); x <= Math.Min(panel.Width - 1, centerX + PathHalfWidthPx); x++)
            {
                l += panel.Lightness[x, y];
                a += panel.AStar[x, y];
                b += panel.BStar[x, y];
                count++;
            }
        }

        return new(l / count, a / count, b / count);
    }
}
