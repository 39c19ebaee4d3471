using CoatScan.Metrics.Color;

namespace CoatScan.Metrics.Zones;

/// <summary>What a color may be off because a photo is stored in 8 bits and mostly as JPEG.</summary>
/// <remarks>
/// Red, green and blue were rounded to whole codes, half a code at most; in a JPEG, brightness and the two color differences once more,
/// and the mean of a flat area to the step that its quantizer has. An error spread evenly over a step has the standard deviation
/// step / sqrt 12; several of them add up to nearly a normal one. Source: ITU-T T.81; the color differences of JFIF (ITU-T T.871).
/// </remarks>
internal static class CodingError
{
    // 1.96 / sqrt 12, steps.
    private const double EvenHalfWidth = 0.566;

    private static readonly (double Red, double Green, double Blue)[] Channels = [(1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0)];

    // One code of Y, Cb and Cr in red, green and blue.
    private static readonly (double Red, double Green, double Blue) Brightness = (1.0, 1.0, 1.0);
    private static readonly (double Red, double Green, double Blue)[] Differences = [(0.0, -0.344, 1.772), (1.402, -0.714, 0.0)];

    /// <summary>The color with each of these higher and lower by its half width; first up, then down.</summary>
    internal static IEnumerable<LabColor> Around(LabColor color, StoredColor stored)
    {
        var (red, green, blue) = CieLab.ToLinear(color);
        foreach (var (code, halfWidth) in Errors(stored))
        {
            foreach (var by in (double[])[halfWidth, -halfWidth])
            {
                yield return CieLab.FromLinear(
                    Moved(red, by * code.Red), Moved(green, by * code.Green), Moved(blue, by * code.Blue));
            }
        }
    }

    /// <summary>Half widths of its L*, a* and b*.</summary>
    internal static LabColor HalfWidths(LabColor color, StoredColor stored)
    {
        var (l, a, b) = (0.0, 0.0, 0.0);
        foreach (var pair in Around(color, stored).Chunk(2))
        {
            l += Math.Pow(Math.Max(Math.Abs(pair[0].L - color.L), Math.Abs(pair[1].L - color.L)), 2.0);
            a += Math.Pow(Math.Max(Math.Abs(pair[0].A - color.A), Math.Abs(pair[1].A - color.A)), 2.0);
            b += Math.Pow(Math.Max(Math.Abs(pair[0].B - color.B), Math.Abs(pair[1].B - color.B)), 2.0);
        }

        return new(Math.Sqrt(l), Math.Sqrt(a), Math.Sqrt(b));
    }

    private static IEnumerable<((double Red, double Green, double Blue) Code, double HalfWidth)> Errors(StoredColor stored)
    {
        foreach (var channel in Channels)
        {
            yield return (channel, EvenHalfWidth);
        }

        if (stored.BrightnessStep > 0.0)
        {
            yield return (Brightness, OfRoundedTo(stored.BrightnessStep));
            foreach (var difference in Differences)
            {
                yield return (difference, OfRoundedTo(stored.ColorStep));
            }
        }
    }

    private static double OfRoundedTo(double step) => EvenHalfWidth * Math.Sqrt(1.0 + (step * step));

    private static double Moved(double linear, double codes) =>
        SrgbTransfer.ToLinear(SrgbTransfer.FromLinear(linear) + (codes / 255.0));
}
