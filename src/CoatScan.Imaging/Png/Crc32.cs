namespace CoatScan.Imaging.Png;

/// <summary>The checksum of PNG chunks: ISO 3309, polynomial 0xEDB88320 reflected; PNG specification annex D, from memory.</summary>
internal static class Crc32
{
    private static readonly uint[] Table = CreateTable();

    /// <summary>Checksum over type and body of a chunk.</summary>
    public static uint Compute(ReadOnlySpan<byte> type, ReadOnlySpan<byte> body) =>
        ~Append(Append(uint.MaxValue, type), body);

    private static uint Append(uint crc, ReadOnlySpan<byte> bytes)
    {
        foreach (byte value in bytes)
        {
            crc = Table[(crc ^ value) & 0xFF] ^ (crc >> 8);
        }

        return crc;
    }

    private static uint[] CreateTable()
    {
        var table = new uint[256];
        for (uint i = 0; i < table.Length; i++)
        {
            uint value = i;
            for (int bit = 0; bit < 8; bit++)
            {
                value = (value & 1) != 0 ? 0xEDB8_8320 ^ (value >> 1) : value >> 1;
            }

            table[i] = value;
        }

        return table;
    }
}
