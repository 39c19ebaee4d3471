using System.Buffers.Binary;

namespace CoatScan.Imaging.Color;

/// <summary>Reads the color profiles that a matrix and three curves describe, and refuses all others.</summary>
/// <remarks>
/// Layout: ICC.1 (profile versions 2 and 4), from memory. Header 128 bytes; tag table of 12 bytes a tag; s15Fixed16 numbers. The
/// connection space is XYZ under D50. A profile that also carries a lookup table is refused, because the table would win.
/// </remarks>
internal static class IccProfile
{
    private const int HeaderBytes = 128;
    private const int MaxTags = 200;

    // Sum of the colorants of an adapted profile: the D50 of ICC.1.
    private const double D50X = 0.9642;
    private const double D50Z = 0.8249;
    private const double WhiteTolerance = 0.02;

    /// <summary>The color space that a profile describes.</summary>
    /// <param name="profile">The profile.</param>
    /// <param name="isGrayPhoto">The photo has one component.</param>
    /// <exception cref="Findings.CoatScanException">The profile cannot be converted faithfully.</exception>
    public static PhotoColorSpace Read(ReadOnlySpan<byte> profile, bool isGrayPhoto)
    {
        if (profile.Length < HeaderBytes + 4 || !profile[36..40].SequenceEqual("acsp"u8)
            || BinaryPrimitives.ReadUInt32BigEndian(profile) > profile.Length)
        {
            throw Refusal.ColorProfile("it is damaged");
        }

        ReadOnlySpan<byte> deviceClass = profile[12..16];
        if (!deviceClass.SequenceEqual("mntr"u8) && !deviceClass.SequenceEqual("scnr"u8) && !deviceClass.SequenceEqual("spac"u8))
        {
            throw Refusal.ColorProfile("it is none of a display, a camera or a color space");
        }

        if (!profile[20..24].SequenceEqual("XYZ "u8) || HasTag(profile, "A2B0"u8) || HasTag(profile, "A2B1"u8)
            || HasTag(profile, "A2B2"u8) || HasTag(profile, "D2B0"u8) || HasTag(profile, "D2B1"u8))
        {
            throw Refusal.ColorProfile("it works by a lookup table");
        }

        if (profile[16..20].SequenceEqual("RGB "u8))
        {
            return ReadRgb(profile);
        }

        if (!profile[16..20].SequenceEqual("GRAY"u8))
        {
            throw Refusal.ColorProfile("its color model is neither RGB nor gray");
        }

        if (!isGrayPhoto)
        {
            throw Refusal.ColorProfile("it is for gray photos, but the photo has color");
        }

        return PhotoColorSpace.From("embedded gray profile", Matrix3.Identity, ReadCurve(profile, "kTRC"u8));
    }

    private static PhotoColorSpace ReadRgb(ReadOnlySpan<byte> profile)
    {
        var (rx, ry, rz) = ReadXyz(profile, "rXYZ"u8);
        var (gx, gy, gz) = ReadXyz(profile, "gXYZ"u8);
        var (bx, by, bz) = ReadXyz(profile, "bXYZ"u8);
        var toXyz = new Matrix3(rx, gx, bx, ry, gy, by, rz, gz, bz);
        var (whiteX, whiteY, whiteZ) = toXyz.Apply(1, 1, 1);
        if (Math.Abs(whiteX - D50X) > WhiteTolerance || Math.Abs(whiteY - 1) > WhiteTolerance
            || Math.Abs(whiteZ - D50Z) > WhiteTolerance || Math.Abs(toXyz.Determinant()) < 0.001)
        {
            throw Refusal.ColorProfile("its primaries do not add up to the white of the connection space");
        }

        return PhotoColorSpace.From(
            "embedded RGB profile",
            Primaries.XyzToSrgbAdapted(toXyz),
            ReadCurve(profile, "rTRC"u8),
            ReadCurve(profile, "gTRC"u8),
            ReadCurve(profile, "bTRC"u8));
    }

    private static (double X, double Y, double Z) ReadXyz(ReadOnlySpan<byte> profile, ReadOnlySpan<byte> signature)
    {
        ReadOnlySpan<byte> tag = FindTag(profile, signature);
        if (tag.Length < 20 || !tag[..4].SequenceEqual("XYZ "u8))
        {
            throw Refusal.ColorProfile("a primary is missing or damaged");
        }

        return (ReadFixed(tag[8..]), ReadFixed(tag[12..]), ReadFixed(tag[16..]));
    }

    private static ToneCurve ReadCurve(ReadOnlySpan<byte> profile, ReadOnlySpan<byte> signature)
    {
        ReadOnlySpan<byte> tag = FindTag(profile, signature);
        ToneCurve? curve = null;
        if (tag.Length >= 12 && tag[..4].SequenceEqual("curv"u8))
        {
            curve = ReadSampled(tag[8..]);
        }
        else if (tag.Length >= 16 && tag[..4].SequenceEqual("para"u8))
        {
            curve = ReadParametric(tag[8..]);
        }

        if (curve is null)
        {
            throw Refusal.ColorProfile("a tone curve is missing or damaged");
        }

        RequireRising(curve);
        return curve;
    }

    private static ToneCurve? ReadSampled(ReadOnlySpan<byte> body)
    {
        uint count = BinaryPrimitives.ReadUInt32BigEndian(body);
        ReadOnlySpan<byte> data = body[4..];
        if (count == 0)
        {
            return ToneCurve.Power(1);
        }

        if (count > data.Length / 2)
        {
            return null;
        }

        if (count == 1)
        {
            return ToneCurve.Power(BinaryPrimitives.ReadUInt16BigEndian(data) / 256.0);
        }

        var samples = new ushort[count];
        for (int i = 0; i < samples.Length; i++)
        {
            samples[i] = BinaryPrimitives.ReadUInt16BigEndian(data[(2 * i)..]);
        }

        return ToneCurve.Sampled(samples);
    }

    private static ToneCurve? ReadParametric(ReadOnlySpan<byte> body)
    {
        int kind = BinaryPrimitives.ReadUInt16BigEndian(body);
        ReadOnlySpan<int> counts = [1, 3, 4, 5, 7];
        ReadOnlySpan<byte> data = body[4..];
        if (kind >= counts.Length || data.Length < 4 * counts[kind])
        {
            return null;
        }

        var p = new double[7];
        for (int i = 0; i < counts[kind]; i++)
        {
            p[i] = ReadFixed(data[(4 * i)..]);
        }

        var (g, a, b, c, d, e, f) = (p[0], p[1], p[2], p[3], p[4], p[5], p[6]);
        return kind switch
        {
            0 => ToneCurve.Power(g),
            1 => new ToneCurve(x => x >= -b / a ? Math.Pow((a * x) + b, g) : 0),
            2 => new ToneCurve(x => x >= -b / a ? Math.Pow((a * x) + b, g) + c : c),
            3 => new ToneCurve(x => x >= d ? Math.Pow((a * x) + b, g) : c * x),
            _ => new ToneCurve(x => x >= d ? Math.Pow((a * x) + b, g) + e : (c * x) + f),
        };
    }

    private static void RequireRising(ToneCurve curve)
    {
        float[] table = curve.Tabulate();
        for (int i = 1; i < table.Length; i++)
        {
            // Written so that NaN fails.
            if (!(table[i] >= table[i - 1] - 0.001f))
            {
                throw Refusal.ColorProfile("a tone curve falls");
            }
        }

        if (!(table[0] <= 0.1f && table[255] >= 0.9f))
        {
            throw Refusal.ColorProfile("a tone curve does not reach from black to white");
        }
    }

    private static bool HasTag(ReadOnlySpan<byte> profile, ReadOnlySpan<byte> signature) => !FindTag(profile, signature).IsEmpty;

    private static ReadOnlySpan<byte> FindTag(ReadOnlySpan<byte> profile, ReadOnlySpan<byte> signature)
    {
        uint count = Math.Min(BinaryPrimitives.ReadUInt32BigEndian(profile[HeaderBytes..]), MaxTags);
        ReadOnlySpan<byte> table = profile[(HeaderBytes + 4)..];
        for (; count > 0 && table.Length >= 12; count--, table = table[12..])
        {
            if (table[..4].SequenceEqual(signature))
            {
                uint offset = BinaryPrimitives.ReadUInt32BigEndian(table[4..]);
                uint length = BinaryPrimitives.ReadUInt32BigEndian(table[8..]);
                return offset <= profile.Length && length <= profile.Length - offset
                    ? profile.Slice((int)offset, (int)length)
                    : throw Refusal.ColorProfile("it is damaged");
            }
        }

        return default;
    }

    private static double ReadFixed(ReadOnlySpan<byte> at) => BinaryPrimitives.ReadInt32BigEndian(at) / 65_536.0;
}
