using System.Buffers.Binary;
using CoatScan.Imaging;

namespace CoatScan.FunctionalTests.Infrastructure;

/// <summary>Files that must be refused, made byte by byte.</summary>
internal static class RefusedPhotos
{
    public static byte[] Empty => [];

    public static byte[] Text => "This is a text file named .jpg"u8.ToArray();

    public static byte[] Gif => [.. "GIF89a"u8, 1, 0, 1, 0, 0, 0, 0, 0x3B];

    public static byte[] JpegGarbage => [0xFF, 0xD8, 0xFF, 0xE0, 0, 16, .. new byte[40], 0xFF, 0xD9];

    public static byte[] TruncatedJpeg => Panels.Sound[..(Panels.Sound.Length * 6 / 10)];

    public static byte[] TooManyBytes => [.. Panels.Sound, .. new byte[8 * 1024 * 1024]];

    /// <summary>The 67-byte PNG that claims 1 x 500,000,000 pixels.</summary>
    public static byte[] ThinPngHeader => PngThatClaims(1, 500_000_000);

    /// <summary>51 megapixels, within the limits of side and aspect.</summary>
    public static byte[] TooManyPixelsPngHeader => PngThatClaims(8_500, 6_000);

    /// <summary>One side above 12,000 px, within the limits of pixels and aspect.</summary>
    public static byte[] TooLongPngHeader => PngThatClaims(12_001, 2_000);

    /// <summary>More than 8 to 1, within the limits of pixels and side.</summary>
    public static byte[] TooSlimPngHeader => PngThatClaims(4_001, 500);

    /// <summary>A PNG with an animation control chunk.</summary>
    public static byte[] AnimatedPng
    {
        get
        {
            var still = PhotoEncoder.EncodePng(new byte[64 * 64 * 3], 64, 64);
            var control = Chunk("acTL", [0, 0, 0, 2, 0, 0, 0, 0]);
            const int afterHeader = 8 + 25;
            return [.. still[..afterHeader], .. control, .. still[afterHeader..]];
        }
    }

    /// <summary>A baseline frame of four components, as CMYK photos have.</summary>
    public static byte[] CmykJpeg
    {
        get
        {
            byte[] frame =
            [
                0xFF, 0xC0, 0, 20, 8, 0, 8, 0, 8, 4, 1, 0x11, 0, 2, 0x11, 0, 3, 0x11, 0, 4, 0x11, 0,
            ];
            byte[] scan = [0xFF, 0xDA, 0, 14, 4, 1, 0, 2, 0, 3, 0, 4, 0, 0, 63, 0, 0x00];
            return [0xFF, 0xD8, .. frame, .. scan, 0xFF, 0xD9];
        }
    }

    /// <summary>A good photo with an ICC profile of class <c>prtr</c> for CMYK data.</summary>
    public static byte[] JpegWithPrinterProfile
    {
        get
        {
            var profile = new byte[132];
            BinaryPrimitives.WriteInt32BigEndian(profile, profile.Length);
            profile[8] = 2;
            "prtr"u8.CopyTo(profile.AsSpan(12));
            "CMYK"u8.CopyTo(profile.AsSpan(16));
            "Lab "u8.CopyTo(profile.AsSpan(20));
            "acsp"u8.CopyTo(profile.AsSpan(36));
            byte[] payload = [.. "ICC_PROFILE\0"u8, 1, 1, .. profile];
            byte[] segment = [0xFF, 0xE2, (byte)((payload.Length + 2) >> 8), (byte)(payload.Length + 2), .. payload];
            return [.. Panels.Sound[..2], .. segment, .. Panels.Sound[2..]];
        }
    }

    public static byte[] Named(string name) =>
        (byte[])typeof(RefusedPhotos).GetProperty(name)!.GetValue(null)!;

    private static byte[] PngThatClaims(int width, int height) =>
        Png(Header(width, height), ("IDAT", [0x78, 0x9C, 0x63, 0, 0, 0, 1, 0, 1, 0]), ("IEND", []));

    private static (string, byte[]) Header(int width, int height)
    {
        var data = new byte[13];
        BinaryPrimitives.WriteInt32BigEndian(data, width);
        BinaryPrimitives.WriteInt32BigEndian(data.AsSpan(4), height);
        data[8] = 8;
        data[9] = 2;
        return ("IHDR", data);
    }

    private static byte[] Png(params (string Type, byte[] Data)[] chunks)
    {
        byte[] signature = [0x89, 0x50, 0x4E, 0x47, 0x0D, 0x0A, 0x1A, 0x0A];
        return [.. signature, .. chunks.SelectMany(chunk => Chunk(chunk.Type, chunk.Data))];
    }

    private static byte[] Chunk(string type, byte[] data)
    {
        var chunk = new byte[12 + data.Length];
        BinaryPrimitives.WriteInt32BigEndian(chunk, data.Length);
        for (var i = 0; i < 4; i++)
        {
            chunk[4 + i] = (byte)type[i];
        }

        data.CopyTo(chunk, 8);
        BinaryPrimitives.WriteUInt32BigEndian(chunk.AsSpan(8 + data.Length), Crc32(chunk.AsSpan(4, 4 + data.Length)));
        return chunk;
    }

    // The cyclic redundancy check of the PNG specification (ISO/IEC 15948, annex D), bit by bit.
    private static uint Crc32(ReadOnlySpan<byte> bytes)
    {
        var crc = 0xFFFFFFFFu;
        foreach (var b in bytes)
        {
            crc ^= b;
            for (var bit = 0; bit < 8; bit++)
            {
                crc = (crc & 1) != 0 ? (crc >> 1) ^ 0xEDB88320u : crc >> 1;
            }
        }

        return ~crc;
    }
}
