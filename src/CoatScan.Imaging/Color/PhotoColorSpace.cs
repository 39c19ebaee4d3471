namespace CoatScan.Imaging.Color;

/// <summary>How the 8-bit values of a photo become linear light of the sRGB primaries.</summary>
/// <param name="Name">Short name for the report.</param>
/// <param name="Red">Linear light of every 8-bit red value, [0, 1], in the photo's own primaries.</param>
/// <param name="Green">The same for green.</param>
/// <param name="Blue">The same for blue.</param>
/// <param name="ToSrgb">From the photo's linear primaries to linear sRGB, D65; null if they are the sRGB primaries.</param>
internal sealed record PhotoColorSpace(string Name, float[] Red, float[] Green, float[] Blue, Matrix3? ToSrgb)
{
    // A profile this close to sRGB is sRGB: the difference is below half a step of 8 bits.
    private const double MatrixTolerance = 0.002;
    private const double CurveTolerance = 0.002;

    /// <summary>sRGB, IEC 61966-2-1; also what an untagged photo is taken for.</summary>
    public static PhotoColorSpace Srgb { get; } = CreateSrgb();

    /// <summary>Adobe RGB (1998): primaries, D65 and the exponent 2 + 51/256 from Adobe RGB (1998) Color Image Encoding, 2005, from memory.</summary>
    public static PhotoColorSpace AdobeRgb { get; } =
        From("Adobe RGB (1998)", Primaries.AdobeRgb.ToSrgb(), ToneCurve.Power(2 + (51.0 / 256)));

    /// <summary>Display P3: primaries of SMPTE RP 431-2, D65, sRGB tone curve; from memory.</summary>
    public static PhotoColorSpace DisplayP3 { get; } = From("Display P3", Primaries.DisplayP3.ToSrgb(), ToneCurve.Srgb);

    /// <summary>One curve for all channels.</summary>
    public static PhotoColorSpace From(string name, Matrix3 toSrgb, ToneCurve curve) => From(name, toSrgb, curve, curve, curve);

    /// <summary>A curve for each channel; becomes <see cref="Srgb"/> if it is that.</summary>
    public static PhotoColorSpace From(string name, Matrix3 toSrgb, ToneCurve red, ToneCurve green, ToneCurve blue)
    {
        bool isSrgbMatrix = toSrgb.DistanceTo(Matrix3.Identity) <= MatrixTolerance;
        float[] redTable = red.Tabulate();
        float[] greenTable = green.Tabulate();
        float[] blueTable = blue.Tabulate();
        if (isSrgbMatrix && IsSrgbCurve(redTable) && IsSrgbCurve(greenTable) && IsSrgbCurve(blueTable))
        {
            return Srgb;
        }

        return new PhotoColorSpace(name, redTable, greenTable, blueTable, isSrgbMatrix ? null : toSrgb);
    }

    private static bool IsSrgbCurve(float[] table)
    {
        for (int i = 0; i < table.Length; i++)
        {
            if (Math.Abs(table[i] - Srgb.Red[i]) > CurveTolerance)
            {
                return false;
            }
        }

        return true;
    }

    private static PhotoColorSpace CreateSrgb()
    {
        float[] table = ToneCurve.Srgb.Tabulate();
        return new PhotoColorSpace("sRGB", table, table, table, null);
    }
}
