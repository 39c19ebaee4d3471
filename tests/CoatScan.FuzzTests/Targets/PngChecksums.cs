using System.Buffers.Binary;

namespace CoatScan.FuzzTests.Targets;

/// <summary>Makes the check sums of a PNG's chunks right again (ISO/IEC 15948, 5.5 and annex D).</summary>
internal static class PngChecksums
{
    private const int SignatureBytes = 8;
    private const int FrameBytes = 12;

    private static readonly uint[] Table = [.. Enumerable.Range(0, 256).Select(Entry)];

    /// <summary>A copy with right check sums, as far as its chunks can be followed; the same bytes if it is no PNG.</summary>
    public static byte[] Repair(byte[] bytes)
    {
        if (bytes is not [0x89, 0x50, 0x4E, 0x47, ..])
        {
            return bytes;
        }

        var copy = (byte[])bytes.Clone();
        for (var at = SignatureBytes; at + FrameBytes <= copy.Length;)
        {
            var length = BinaryPrimitives.ReadInt32BigEndian(copy.AsSpan(at));
            if (length < 0 || length > copy.Length - at - FrameBytes)
            {
                break;
            }

            BinaryPrimitives.WriteUInt32BigEndian(copy.AsSpan(at + 8 + length), Of(copy.AsSpan(at + 4, 4 + length)));
            at += FrameBytes + length;
        }

        return copy;
    }

    private static uint Of(ReadOnlySpan<byte> bytes)
    {
        var sum = uint.MaxValue;
        foreach (var one in bytes)
        {
            sum = Table[(byte)sum ^ one] ^ (sum >> 8);
        }

        return ~sum;
    }

    private static uint Entry(int index)
    {
        var entry = (uint)index;
        for (var bit = 0; bit < 8; bit++)
        {
            entry = (entry & 1) != 0 ? 0xEDB88320 ^ (entry >> 1) : entry >> 1;
        }

        return entry;
    }
}
