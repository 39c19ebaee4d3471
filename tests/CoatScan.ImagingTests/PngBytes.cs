using System.Buffers.Binary;
using System.IO.Compression;

namespace CoatScan.ImagingTests;

/// <summary>Builds PNG files chunk by chunk.</summary>
internal static class PngBytes
{
    public static byte[] Signature => [0x89, 0x50, 0x4E, 0x47, 0x0D, 0x0A, 0x1A, 0x0A];

    public static byte[] Header(int width, int height, byte depth = 8, byte colorType = 2, byte interlace = 0)
    {
        var body = new byte[13];
        BinaryPrimitives.WriteInt32BigEndian(body, width);
        BinaryPrimitives.WriteInt32BigEndian(body.AsSpan(4), height);
        (body[8], body[9], body[12]) = (depth, colorType, interlace);
        return Chunk("IHDR"u8, body);
    }

    public static byte[] Data(ReadOnlySpan<byte> rows) => Chunk("IDAT"u8, Deflate(rows));

    public static byte[] End => Chunk("IEND"u8, []);

    public static byte[] Deflate(ReadOnlySpan<byte> bytes)
    {
        using var stream = new MemoryStream();
        using (var zlib = new ZLibStream(stream, CompressionLevel.Optimal, leaveOpen: true))
        {
            zlib.Write(bytes);
        }

        return stream.ToArray();
    }

    public static byte[] Chunk(ReadOnlySpan<byte> type, ReadOnlySpan<byte> body)
    {
        var chunk = new byte[12 + body.Length];
        BinaryPrimitives.WriteInt32BigEndian(chunk, body.Length);
        type.CopyTo(chunk.AsSpan(4));
        body.CopyTo(chunk.AsSpan(8));
        BinaryPrimitives.WriteUInt32BigEndian(chunk.AsSpan(8 + body.Length), Checksum(chunk.AsSpan(4, 4 + body.Length)));
        return chunk;
    }

    /// <summary>One pixel row after another, each behind filter 0, in one color.</summary>
    public static byte[] Rows(int height, ReadOnlySpan<byte> row)
    {
        var rows = new byte[height * (1 + row.Length)];
        for (int y = 0; y < height; y++)
        {
            row.CopyTo(rows.AsSpan((y * (1 + row.Length)) + 1));
        }

        return rows;
    }

    /// <summary>An RGB PNG of one color with chunks between header and data.</summary>
    public static byte[] Flat(int width, int height, (byte R, byte G, byte B) color, params byte[][] chunks)
    {
        var row = new byte[3 * width];
        for (int i = 0; i < row.Length; i += 3)
        {
            (row[i], row[i + 1], row[i + 2]) = color;
        }

        return [.. Signature, .. Header(width, height), .. chunks.SelectMany(c => c), .. Data(Rows(height, row)), .. End];
    }

    /// <summary>Puts chunks right behind the header of a PNG.</summary>
    public static byte[] WithChunks(byte[] png, params byte[][] chunks) => [.. png[..33], .. chunks.SelectMany(c => c), .. png[33..]];

    /// <summary>Makes every checksum right again after bytes were changed; stops where the chunks no longer fit.</summary>
    public static void RepairChecksums(byte[] png)
    {
        int at = 8;
        while (at + 12 <= png.Length)
        {
            uint length = BinaryPrimitives.ReadUInt32BigEndian(png.AsSpan(at));
            if (length > png.Length - at - 12)
            {
                return;
            }

            uint checksum = Checksum(png.AsSpan(at + 4, 4 + (int)length));
            BinaryPrimitives.WriteUInt32BigEndian(png.AsSpan(at + 8 + (int)length), checksum);
            at += 12 + (int)length;
        }
    }

    // Bit by bit, unlike the table of the code under test.
    private static uint Checksum(ReadOnlySpan<byte> bytes)
    {
        uint crc = uint.MaxValue;
        foreach (byte value in bytes)
        {
            crc ^= value;
            for (int bit = 0; bit < 8; bit++)
            {
                crc = (crc >> 1) ^ (0xEDB8_8320 & (0 - (crc & 1)));
            }
        }

        return ~crc;
    }
}
