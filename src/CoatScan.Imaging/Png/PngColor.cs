using System.Buffers.Binary;
using System.IO.Compression;
using CoatScan.Imaging.Color;

namespace CoatScan.Imaging.Png;

/// <summary>The color space of a PNG, from the chunk that wins: cICP, then iCCP, then sRGB, then gAMA and cHRM.</summary>
/// <remarks>Order and layouts: PNG specification, third edition; code points of cICP: ITU-T H.273; both from memory.</remarks>
internal sealed class PngColor(int maxProfileBytes)
{
    // 1 / 2.2, which stands for the sRGB curve: PNG specification, section on sRGB.
    private const uint SrgbGamma = 45_455;
    private const uint GammaTolerance = 500;
    private const double ChromaticityScale = 100_000;

    private byte[]? _codePoints;
    private byte[]? _profile;
    private bool _isSrgb;
    private uint? _gamma;
    private Primaries? _primaries;

    /// <summary>The chunk tells about color.</summary>
    public static bool Knows(ReadOnlySpan<byte> type) =>
        type.SequenceEqual("cICP"u8) || type.SequenceEqual("iCCP"u8) || type.SequenceEqual("sRGB"u8)
        || type.SequenceEqual("gAMA"u8) || type.SequenceEqual("cHRM"u8);

    /// <summary>Takes a chunk that <see cref="Knows"/> accepts.</summary>
    public void Add(ReadOnlySpan<byte> type, ReadOnlySpan<byte> body)
    {
        if (type.SequenceEqual("cICP"u8))
        {
            _codePoints = body.ToArray();
        }
        else if (type.SequenceEqual("iCCP"u8))
        {
            _profile = Inflate(body);
        }
        else if (type.SequenceEqual("sRGB"u8))
        {
            _isSrgb = true;
        }
        else if (type.SequenceEqual("gAMA"u8))
        {
            _gamma = body.Length == 4
                ? BinaryPrimitives.ReadUInt32BigEndian(body)
                : throw Refusal.ColorProfile("the gamma of the PNG is damaged");
        }
        else
        {
            _primaries = ReadPrimaries(body);
        }
    }

    /// <summary>The color space; <paramref name="untagged"/> if no chunk tells.</summary>
    public PhotoColorSpace Read(bool isGrayPhoto, PhotoColorSpace untagged)
    {
        if (_codePoints is not null)
        {
            return ReadCodePoints(_codePoints);
        }

        if (_profile is not null)
        {
            return IccProfile.Read(_profile, isGrayPhoto);
        }

        if (_isSrgb)
        {
            return PhotoColorSpace.Srgb;
        }

        if (_gamma is null && _primaries is null)
        {
            return untagged;
        }

        Matrix3 toSrgb = _primaries?.ToSrgb() ?? Matrix3.Identity;
        return PhotoColorSpace.From("PNG gamma and primaries", toSrgb, ReadGamma());
    }

    private static PhotoColorSpace ReadCodePoints(byte[] codePoints)
    {
        // Primaries 1 (BT.709) or 12 (P3 with D65), transfer 13 (sRGB), no matrix, full range.
        if (codePoints.Length == 4 && codePoints[1] == 13 && codePoints[2] == 0 && codePoints[3] == 1)
        {
            if (codePoints[0] == 1)
            {
                return PhotoColorSpace.Srgb;
            }

            if (codePoints[0] == 12)
            {
                return PhotoColorSpace.DisplayP3;
            }
        }

        throw Refusal.ColorProfile("its cICP code points are neither sRGB nor Display P3");
    }

    private ToneCurve ReadGamma()
    {
        if (_gamma is not { } gamma || Math.Abs((long)gamma - SrgbGamma) <= GammaTolerance)
        {
            return ToneCurve.Srgb;
        }

        // Beyond these the 8-bit steps are too coarse for a measurement, and the value is more likely an error.
        return gamma is >= 25_000 and <= 150_000
            ? ToneCurve.Power(ChromaticityScale / gamma)
            : throw Refusal.ColorProfile("the gamma of the PNG is out of range");
    }

    private static Primaries ReadPrimaries(ReadOnlySpan<byte> body)
    {
        if (body.Length != 32)
        {
            throw Refusal.ColorProfile("the primaries of the PNG are damaged");
        }

        var v = new double[8];
        for (int i = 0; i < v.Length; i++)
        {
            v[i] = BinaryPrimitives.ReadUInt32BigEndian(body[(4 * i)..]) / ChromaticityScale;
        }

        var primaries = new Primaries(v[2], v[3], v[4], v[5], v[6], v[7], v[0], v[1]);
        return primaries.IsPlausible ? primaries : throw Refusal.ColorProfile("the primaries of the PNG are impossible");
    }

    private byte[] Inflate(ReadOnlySpan<byte> body)
    {
        int name = body[..Math.Min(body.Length, 80)].IndexOf((byte)0);
        if (name < 1 || body.Length < name + 2 || body[name + 1] != 0)
        {
            throw Refusal.ColorProfile("it is damaged");
        }

        try
        {
            using var compressed = new MemoryStream(body[(name + 2)..].ToArray());
            using var inflated = new ZLibStream(compressed, CompressionMode.Decompress);
            using var profile = new MemoryStream();
            Span<byte> buffer = stackalloc byte[4096];
            for (int count = inflated.Read(buffer); count > 0; count = inflated.Read(buffer))
            {
                profile.Write(buffer[..count]);
                if (profile.Length > maxProfileBytes)
                {
                    throw Refusal.ColorProfile($"it is larger than {maxProfileBytes} bytes");
                }
            }

            return profile.ToArray();
        }
        catch (InvalidDataException)
        {
            throw Refusal.ColorProfile("it is damaged");
        }
    }
}
