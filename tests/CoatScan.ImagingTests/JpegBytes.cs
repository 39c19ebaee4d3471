using System.Buffers.Binary;

namespace CoatScan.ImagingTests;

/// <summary>Builds and bends JPEG files byte by byte: ITU-T T.81 annex B.</summary>
internal static class JpegBytes
{
    /// <summary>Puts a segment right behind the start marker.</summary>
    public static byte[] WithSegment(byte[] jpeg, byte marker, ReadOnlySpan<byte> body) =>
        [.. jpeg[..2], .. Segment(marker, body), .. jpeg[2..]];

    public static byte[] Segment(byte marker, ReadOnlySpan<byte> body)
    {
        var segment = new byte[4 + body.Length];
        segment[0] = 0xFF;
        segment[1] = marker;
        BinaryPrimitives.WriteUInt16BigEndian(segment.AsSpan(2), (ushort)(2 + body.Length));
        body.CopyTo(segment.AsSpan(4));
        return segment;
    }

    /// <summary>Where a marker stands that is not inside another segment.</summary>
    public static int Find(byte[] jpeg, byte marker)
    {
        int at = 2;
        while (jpeg[at + 1] != marker)
        {
            at += 2 + BinaryPrimitives.ReadUInt16BigEndian(jpeg.AsSpan(at + 2));
        }

        return at;
    }

    /// <summary>A copy with one byte changed.</summary>
    public static byte[] With(byte[] bytes, int at, byte value)
    {
        byte[] copy = [.. bytes];
        copy[at] = value;
        return copy;
    }

    /// <summary>Parts of a profile in APP2 segments of so many bytes.</summary>
    public static byte[] WithProfile(byte[] jpeg, byte[] profile, int partBytes = 60_000)
    {
        int count = (profile.Length + partBytes - 1) / partBytes;
        for (int i = count; i >= 1; i--)
        {
            byte[] part = profile[((i - 1) * partBytes)..Math.Min(i * partBytes, profile.Length)];
            jpeg = WithSegment(jpeg, 0xE2, [.. "ICC_PROFILE\0"u8, (byte)i, (byte)count, .. part]);
        }

        return jpeg;
    }

    public static byte[] WithExif(byte[] jpeg, byte[] tiff) => WithSegment(jpeg, 0xE1, [.. "Exif\0\0"u8, .. tiff]);

    /// <summary>
    /// A gray baseline JPEG whose 8 x 8 blocks each have one level, with a restart marker after so many blocks (0: none).
    /// </summary>
    /// <remarks>Quantizer 8, so that a step of the mean is one level. Codes: size 0 to 11 in four bits; end of block in one.</remarks>
    public static byte[] GrayBlocks(int blocksX, int blocksY, Func<int, int> level, int restartInterval)
    {
        var table = new byte[65];
        table.AsSpan(1).Fill(8);
        byte[] frame = [8, (byte)(blocksY >> 5), (byte)(blocksY << 3), (byte)(blocksX >> 5), (byte)(blocksX << 3), 1, 1, 0x11, 0];
        byte[] dc = [0x00, 0, 0, 0, 12, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11];
        byte[] ac = [0x10, 1, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0];
        return
        [
            0xFF, 0xD8,
            .. Segment(0xDB, table),
            .. Segment(0xC0, frame),
            .. Segment(0xC4, dc),
            .. Segment(0xC4, ac),
            .. Segment(0xDD, [(byte)(restartInterval >> 8), (byte)restartInterval]),
            .. Segment(0xDA, [1, 1, 0x00, 0, 63, 0]),
            .. EncodeBlocks(blocksX * blocksY, level, restartInterval),
            0xFF, 0xD9,
        ];
    }

    private static List<byte> EncodeBlocks(int count, Func<int, int> level, int restartInterval)
    {
        var bytes = new List<byte>();
        int pending = 0;
        int bits = 0;
        int previous = 0;
        void Put(int value, int length)
        {
            for (int i = length - 1; i >= 0; i--)
            {
                pending = (pending << 1) | ((value >> i) & 1);
                if (++bits == 8)
                {
                    bytes.Add((byte)pending);
                    if (pending == 0xFF)
                    {
                        bytes.Add(0);
                    }

                    (pending, bits) = (0, 0);
                }
            }
        }

        for (int i = 0; i < count; i++)
        {
            if (restartInterval > 0 && i > 0 && i % restartInterval == 0)
            {
                Put(0x7F, (8 - bits) % 8);
                bytes.AddRange([0xFF, (byte)(0xD0 + (((i / restartInterval) - 1) % 8))]);
                previous = 0;
            }

            int mean = level(i) - 128;
            int difference = mean - previous;
            previous = mean;
            int size = 32 - int.LeadingZeroCount(Math.Abs(difference));
            Put(size, 4);
            Put(difference >= 0 ? difference : difference + (1 << size) - 1, size);
            Put(0, 1);
        }

        Put(0x7F, (8 - bits) % 8);
        return bytes;
    }
}
