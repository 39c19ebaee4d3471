namespace CoatScan.Metrics.Color;

/// <summary>CIEDE2000 color difference, 0 or more; about 1 is just noticeable on flat patches side by side.</summary>
/// <remarks>
/// <para>Symmetric in its arguments; 0 for equal colors. Parametric factors kL, kC and kH are 1.</para>
/// <para>Comparable only for colors under one light and one angle; effect colors change with both.</para>
/// <para>Source: Sharma, Wu and Dalal, Color Research and Application 30(1), 21-30, 2005, doi 10.1002/col.20070; equation
/// numbers below are theirs.</para>
/// </remarks>
public static class DeltaE2000
{
    private const double DegreesPerRadian = 180.0 / Math.PI;

    // 25 to the power of 7.
    private const double ChromaPivot = 6_103_515_625.0;

    /// <summary>Difference of two colors in CIELAB.</summary>
    public static double Between(LabColor first, LabColor second)
    {
        // Equations 2 to 7: a* is stretched near gray.
        var g = 0.5 * (1.0 - SaturationRoot((first.Chroma + second.Chroma) / 2.0));
        var a1 = (1.0 + g) * first.A;
        var a2 = (1.0 + g) * second.A;
        var c1 = Math.Sqrt((a1 * a1) + (first.B * first.B));
        var c2 = Math.Sqrt((a2 * a2) + (second.B * second.B));
        var h1 = HueDegrees(a1, first.B);
        var h2 = HueDegrees(a2, second.B);

        // Equations 8 to 11.
        var deltaL = second.L - first.L;
        var deltaC = c2 - c1;
        var deltaHue = HueStep(h1, h2, c1 * c2);
        var deltaH = 2.0 * Math.Sqrt(c1 * c2) * Math.Sin(deltaHue / 2.0 / DegreesPerRadian);

        // Equations 12 to 21.
        var meanL = (first.L + second.L) / 2.0;
        var meanC = (c1 + c2) / 2.0;
        var meanH = MeanHue(h1, h2, c1 * c2);
        var t = 1.0
            - (0.17 * CosDegrees(meanH - 30.0))
            + (0.24 * CosDegrees(2.0 * meanH))
            + (0.32 * CosDegrees((3.0 * meanH) + 6.0))
            - (0.20 * CosDegrees((4.0 * meanH) - 63.0));
        var hueBump = (meanH - 275.0) / 25.0;
        var rotation = 30.0 * Math.Exp(-hueBump * hueBump);
        var rc = 2.0 * SaturationRoot(meanC);
        var lightnessOffset = (meanL - 50.0) * (meanL - 50.0);
        var sl = 1.0 + (0.015 * lightnessOffset / Math.Sqrt(20.0 + lightnessOffset));
        var sc = 1.0 + (0.045 * meanC);
        var sh = 1.0 + (0.015 * meanC * t);
        var rt = -Math.Sin(2.0 * rotation / DegreesPerRadian) * rc;

        // Equation 22.
        var l = deltaL / sl;
        var c = deltaC / sc;
        var h = deltaH / sh;
        return Math.Sqrt(Math.Max(0.0, (l * l) + (c * c) + (h * h) + (rt * c * h)));
    }

    private static double SaturationRoot(double chroma)
    {
        var seventh = Math.Pow(chroma, 7.0);
        return Math.Sqrt(seventh / (seventh + ChromaPivot));
    }

    private static double HueDegrees(double a, double b)
    {
        if (a == 0.0 && b == 0.0)
        {
            return 0.0;
        }

        var degrees = Math.Atan2(b, a) * DegreesPerRadian;
        return degrees < 0.0 ? degrees + 360.0 : degrees;
    }

    // Strictly more than 180 degrees turns the other way: exactly 180 stays, or published pairs 9 to 16 fail.
    private static double HueStep(double h1, double h2, double chromaProduct)
    {
        if (chromaProduct == 0.0)
        {
            return 0.0;
        }

        var step = h2 - h1;
        return step > 180.0 ? step - 360.0 : step < -180.0 ? step + 360.0 : step;
    }

    private static double MeanHue(double h1, double h2, double chromaProduct)
    {
        var sum = h1 + h2;
        if (chromaProduct == 0.0)
        {
            return sum;
        }

        if (Math.Abs(h1 - h2) <= 180.0)
        {
            return sum / 2.0;
        }

        return sum < 360.0 ? (sum + 360.0) / 2.0 : (sum - 360.0) / 2.0;
    }

    private static double CosDegrees(double degrees) => Math.Cos(degrees / DegreesPerRadian);
}
