using System.Buffers.Binary;

namespace CoatScan.Imaging.Children;

/// <summary>What a child process is asked: a head of fixed length, then the bytes of the photo.</summary>
internal readonly record struct DecodeRequest(bool IsPng, bool HasAlpha, int WidthPx, int HeightPx, int LengthBytes)
{
    /// <summary>Length of the head.</summary>
    public const int HeadBytes = 16;

    /// <summary>Bytes of the answer's pixels, red, green, blue, row by row.</summary>
    public int PixelBytes => checked(WidthPx * HeightPx * 3);

    /// <summary>Reads a head.</summary>
    public static DecodeRequest Read(ReadOnlySpan<byte> head)
    {
        var flags = BinaryPrimitives.ReadInt32LittleEndian(head);
        return new DecodeRequest(
            (flags & 1) != 0,
            (flags & 2) != 0,
            BinaryPrimitives.ReadInt32LittleEndian(head[4..]),
            BinaryPrimitives.ReadInt32LittleEndian(head[8..]),
            BinaryPrimitives.ReadInt32LittleEndian(head[12..]));
    }

    /// <summary>Writes a head.</summary>
    public void Write(Span<byte> head)
    {
        BinaryPrimitives.WriteInt32LittleEndian(head, (IsPng ? 1 : 0) | (HasAlpha ? 2 : 0));
        BinaryPrimitives.WriteInt32LittleEndian(head[4..], WidthPx);
        BinaryPrimitives.WriteInt32LittleEndian(head[8..], HeightPx);
        BinaryPrimitives.WriteInt32LittleEndian(head[12..], LengthBytes);
    }
}
