using CoatScan.Findings;
using CoatScan.Imaging.Color;
using CoatScan.Metrics.Zones;

namespace CoatScan.Imaging.Normalizing;

/// <summary>What the decoder's rounding to whole codes took from the mean color of a zone, read from the file itself.</summary>
/// <remarks>
/// A JPEG smooths away the noise of a flat area, and then all its samples are rounded alike: up to half a code off in brightness and in
/// each color difference, nearly a code of red or blue. The file has the means of its blocks finer; the difference to the mean of the
/// decoded pixels over the same blocks is given back. Cost: by the area of the zone. Source: ITU-T T.81, ITU-T T.871 (JFIF).
/// </remarks>
internal static class ZoneRounding
{
    // Half a code of brightness, 0.9 of blue from half a code of a color difference, half a code of blue itself: more than that is not
    // rounding but a channel that was cut at black or white.
    private const double MaxRoundedCodes = 1.9;

    /// <summary>The loss of a zone of the oriented photo.</summary>
    public static StoredColor Of(DecodedPhoto photo, PhotoZone zone)
    {
        if (photo.Quantizer is null)
        {
            return StoredColor.Exact;
        }

        if (photo.Means is not { } means)
        {
            return StoredColor.Unknown;
        }

        var (left, top, right, bottom) = OrientedGrid
            .For(photo.StoredWidthPx, photo.StoredHeightPx, photo.Orientation)
            .Stored(zone.XPx, zone.YPx, (long)zone.XPx + zone.WidthPx, (long)zone.YPx + zone.HeightPx);
        int fromX = (left + means.UnitWidthPx - 1) / means.UnitWidthPx;
        int fromY = (top + means.UnitHeightPx - 1) / means.UnitHeightPx;
        int toX = Math.Min(right, photo.StoredWidthPx) / means.UnitWidthPx;
        int toY = Math.Min(bottom, photo.StoredHeightPx) / means.UnitHeightPx;
        if (toX <= fromX || toY <= fromY)
        {
            return StoredColor.Unknown;
        }

        var (y, cb, cr) = means.Over(fromX, fromY, toX, toY);
        var (red, green, blue) = DecodedMean(
            photo, fromX * means.UnitWidthPx, fromY * means.UnitHeightPx, toX * means.UnitWidthPx, toY * means.UnitHeightPx);
        double byRed = y + (1.402 * cr) - red;
        double byGreen = y - (0.344136 * cb) - (0.714136 * cr) - green;
        double byBlue = y + (1.772 * cb) - blue;
        if (Math.Max(Math.Abs(byRed), Math.Max(Math.Abs(byGreen), Math.Abs(byBlue))) > MaxRoundedCodes)
        {
            return StoredColor.Unknown;
        }

        PhotoColorSpace space = photo.ColorSpace;
        var light = (
            Light(space.Red, red + byRed) - Light(space.Red, red),
            Light(space.Green, green + byGreen) - Light(space.Green, green),
            Light(space.Blue, blue + byBlue) - Light(space.Blue, blue));
        return new StoredColor(
            space.ToSrgb is { } matrix ? matrix.Apply(light.Item1, light.Item2, light.Item3) : light,
            means.BrightnessStep,
            means.ColorStep);
    }

    private static (double Red, double Green, double Blue) DecodedMean(DecodedPhoto photo, int left, int top, int right, int bottom)
    {
        long red = 0;
        long green = 0;
        long blue = 0;
        for (int y = top; y < bottom; y++)
        {
            ReadOnlySpan<byte> row = photo.StoredRow(y)[(3 * left)..(3 * right)];
            for (int i = 0; i < row.Length; i += 3)
            {
                red += row[i];
                green += row[i + 1];
                blue += row[i + 2];
            }
        }

        double pixels = (double)(right - left) * (bottom - top);
        return (red / pixels, green / pixels, blue / pixels);
    }

    private static double Light(float[] curve, double code)
    {
        double inside = Math.Clamp(code, 0, 255);
        int below = Math.Min((int)inside, 254);
        return curve[below] + ((inside - below) * (curve[below + 1] - curve[below]));
    }
}
