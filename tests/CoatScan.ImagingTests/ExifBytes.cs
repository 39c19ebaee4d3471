using System.Buffers.Binary;
using System.Text;

namespace CoatScan.ImagingTests;

/// <summary>Writes EXIF data as a TIFF stream, in either byte order.</summary>
internal sealed class ExifBytes(bool bigEndian)
{
    private readonly List<byte> _bytes = [.. bigEndian ? "MM\0*"u8 : "II*\0"u8, 0, 0, 0, 0];

    public static byte[] Orientation(int value, bool bigEndian = true)
    {
        var exif = new ExifBytes(bigEndian);
        return exif.Finish(exif.Directory((0x0112, Short(value))));
    }

    public static (int Type, string? Text, uint Number) Short(int value) => (3, null, (uint)value);

    public static (int Type, string? Text, uint Number) Pointer(uint offset) => (4, null, offset);

    public static (int Type, string? Text, uint Number) Ascii(string text) => (2, text, 0);

    /// <summary>Appends a directory; its offset.</summary>
    public uint Directory(params (int Tag, (int Type, string? Text, uint Number) Value)[] entries)
    {
        var offsets = new uint[entries.Length];
        for (int i = 0; i < entries.Length; i++)
        {
            if (entries[i].Value.Text is { Length: > 3 } text)
            {
                offsets[i] = (uint)_bytes.Count;
                _bytes.AddRange([.. Encoding.ASCII.GetBytes(text), 0]);
            }
        }

        uint at = (uint)_bytes.Count;
        Put16(entries.Length);
        for (int i = 0; i < entries.Length; i++)
        {
            var (tag, (type, text, number)) = entries[i];
            Put16(tag);
            Put16(type);
            Put32(text is null ? 1 : (uint)text.Length + 1);
            if (text is { Length: <= 3 })
            {
                _bytes.AddRange(Encoding.ASCII.GetBytes(text.PadRight(4, '\0')));
            }
            else if (type == 3)
            {
                Put16((int)number);
                Put16(0);
            }
            else
            {
                Put32(text is null ? number : offsets[i]);
            }
        }

        Put32(0);
        return at;
    }

    public byte[] Finish(uint mainDirectory)
    {
        byte[] bytes = [.. _bytes];
        Write32(bytes.AsSpan(4), mainDirectory);
        return bytes;
    }

    private void Put16(int value)
    {
        var bytes = new byte[2];
        if (bigEndian)
        {
            BinaryPrimitives.WriteUInt16BigEndian(bytes, (ushort)value);
        }
        else
        {
            BinaryPrimitives.WriteUInt16LittleEndian(bytes, (ushort)value);
        }

        _bytes.AddRange(bytes);
    }

    private void Put32(uint value)
    {
        var bytes = new byte[4];
        Write32(bytes, value);
        _bytes.AddRange(bytes);
    }

    private void Write32(Span<byte> at, uint value)
    {
        if (bigEndian)
        {
            BinaryPrimitives.WriteUInt32BigEndian(at, value);
        }
        else
        {
            BinaryPrimitives.WriteUInt32LittleEndian(at, value);
        }
    }
}
