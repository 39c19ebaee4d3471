using CoatScan.Metrics.Color;

namespace CoatScan.Metrics.Zones;

/// <summary>What a color may be off because a photo is stored in 8 bits and mostly as JPEG.</summary>
/// <remarks>
/// A flat area of a JPEG may be off by half a step of its mean: (step / 8) / 2 codes, up to 0.9 codes in brightness and in each of
/// the two color differences at quality 60 with the tables of ITU-T T.81 annex K; and by half a code, to which each is rounded before.
/// Of the sum of two such even errors 95 % lie within 1.2 codes. Source: ITU-T T.81; the color differences of JFIF (ITU-T T.871).
/// </remarks>
internal static class CodingError
{
    private const double HalfWidthCodes = 1.2;

    // One code of Y, Cb and Cr in red, green and blue.
    private static readonly (double Red, double Green, double Blue)[] Codes =
        [(1.0, 1.0, 1.0), (0.0, -0.344, 1.772), (1.402, -0.714, 0.0)];

    /// <summary>The color with each of the three higher and lower by the half width; first up, then down.</summary>
    internal static IEnumerable<LabColor> Around(LabColor color)
    {
        var (red, green, blue) = CieLab.ToLinear(color);
        foreach (var code in Codes)
        {
            foreach (var by in (double[])[HalfWidthCodes, -HalfWidthCodes])
            {
                yield return CieLab.FromLinear(
                    Moved(red, by * code.Red), Moved(green, by * code.Green), Moved(blue, by * code.Blue));
            }
        }
    }

    private static double Moved(double linear, double codes) =>
        SrgbTransfer.ToLinear(SrgbTransfer.FromLinear(linear) + (codes / 255.0));
}
