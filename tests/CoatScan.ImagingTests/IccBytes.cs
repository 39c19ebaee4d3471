using System.Buffers.Binary;

namespace CoatScan.ImagingTests;

/// <summary>Builds color profiles tag by tag: ICC.1, from memory.</summary>
internal static class IccBytes
{
    // Colorants under D50 as profiles carry them: the published chromaticities with D65 (Display P3: SMPTE RP 431-2 primaries; Adobe
    // RGB (1998): its color image encoding of 2005; sRGB: IEC 61966-2-1), adapted by Bradford, rounded; rounded values from memory.
    public static readonly double[] DisplayP3Colorants = [0.51512, 0.24120, -0.00105, 0.29198, 0.69225, 0.04189, 0.15710, 0.06657, 0.78407];
    public static readonly double[] AdobeRgbColorants = [0.60974, 0.31111, 0.01947, 0.20528, 0.62567, 0.06087, 0.14919, 0.06322, 0.74457];
    public static readonly double[] SrgbColorants = [0.43607, 0.22249, 0.01392, 0.38515, 0.71687, 0.09708, 0.14307, 0.06061, 0.71410];

    /// <summary>A profile of three colorants and one curve.</summary>
    public static byte[] Matrix(double[] colorants, byte[] curve, params (string Name, byte[] Body)[] more) => Profile(
        "mntr",
        "RGB ",
        "XYZ ",
        [
            ("rXYZ", Xyz(colorants.AsSpan(0, 3))), ("gXYZ", Xyz(colorants.AsSpan(3, 3))), ("bXYZ", Xyz(colorants.AsSpan(6, 3))),
            ("rTRC", curve), ("gTRC", curve), ("bTRC", curve),
            .. more,
        ]);

    public static byte[] Profile(string deviceClass, string space, string connection, (string Name, byte[] Body)[] tags)
    {
        int offset = 132 + (12 * tags.Length);
        var profile = new byte[offset + tags.Sum(tag => tag.Body.Length)];
        Put(profile, 0, profile.Length);
        profile[8] = 4;
        Put(profile, 12, deviceClass);
        Put(profile, 16, space);
        Put(profile, 20, connection);
        Put(profile, 36, "acsp");
        Put(profile, 128, tags.Length);
        for (int i = 0; i < tags.Length; i++)
        {
            Put(profile, 132 + (12 * i), tags[i].Name);
            Put(profile, 136 + (12 * i), offset);
            Put(profile, 140 + (12 * i), tags[i].Body.Length);
            tags[i].Body.CopyTo(profile.AsSpan(offset));
            offset += tags[i].Body.Length;
        }

        return profile;
    }

    /// <summary>The sRGB curve as parametric type 3.</summary>
    public static byte[] SrgbCurve => Parametric(3, 2.4, 1 / 1.055, 0.055 / 1.055, 1 / 12.92, 0.04045);

    public static byte[] Parametric(int kind, params double[] parameters)
    {
        var body = new byte[12 + (4 * parameters.Length)];
        Put(body, 0, "para");
        body[9] = (byte)kind;
        for (int i = 0; i < parameters.Length; i++)
        {
            Put(body, 12 + (4 * i), (int)Math.Round(parameters[i] * 65_536));
        }

        return body;
    }

    public static byte[] Curve(params ushort[] values)
    {
        var body = new byte[12 + (2 * values.Length)];
        Put(body, 0, "curv");
        Put(body, 8, values.Length);
        for (int i = 0; i < values.Length; i++)
        {
            BinaryPrimitives.WriteUInt16BigEndian(body.AsSpan(12 + (2 * i)), values[i]);
        }

        return body;
    }

    private static byte[] Xyz(ReadOnlySpan<double> values)
    {
        var body = new byte[20];
        Put(body, 0, "XYZ ");
        for (int i = 0; i < 3; i++)
        {
            Put(body, 8 + (4 * i), (int)Math.Round(values[i] * 65_536));
        }

        return body;
    }

    private static void Put(byte[] bytes, int at, int value) => BinaryPrimitives.WriteInt32BigEndian(bytes.AsSpan(at), value);

    private static void Put(byte[] bytes, int at, string text) => System.Text.Encoding.ASCII.GetBytes(text, bytes.AsSpan(at));
}
