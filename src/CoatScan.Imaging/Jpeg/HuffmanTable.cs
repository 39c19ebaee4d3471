namespace CoatScan.Imaging.Jpeg;

/// <summary>A Huffman table of ITU-T T.81 as a lookup by the next 16 bits.</summary>
internal sealed class HuffmanTable
{
    private const int FastBits = 10;

    // Length in the high byte, symbol in the low; 0 marks a code longer than FastBits or none.
    private readonly ushort[] _fast = new ushort[1 << FastBits];
    private readonly int[] _endOfLength = new int[17];
    private readonly int[] _symbolOffset = new int[17];
    private readonly byte[] _symbols;

    /// <summary>Builds the codes of T.81 annex C from the 16 counts and the symbols.</summary>
    public HuffmanTable(ReadOnlySpan<byte> counts, ReadOnlySpan<byte> symbols)
    {
        _symbols = symbols.ToArray();
        int code = 0;
        int index = 0;
        for (int length = 1; length <= 16; length++)
        {
            _symbolOffset[length] = index - code;
            for (int i = 0; i < counts[length - 1]; i++, code++, index++)
            {
                if (code >= 1 << length)
                {
                    throw Refusal.Unreadable("a Huffman table of the JPEG is impossible");
                }

                if (length <= FastBits)
                {
                    int first = code << (FastBits - length);
                    _fast.AsSpan(first, 1 << (FastBits - length)).Fill((ushort)((length << 8) | symbols[index]));
                }
            }

            _endOfLength[length] = code;
            code <<= 1;
        }
    }

    /// <summary>Length of the next code in the high byte and its symbol in the low; 0 if the bits are no code.</summary>
    /// <param name="window">The next bits, left aligned.</param>
    public int Find(ulong window)
    {
        int entry = _fast[(int)(window >> (64 - FastBits))];
        return entry != 0 ? entry : FindLong(window);
    }

    private int FindLong(ulong window)
    {
        for (int length = FastBits + 1; length <= 16; length++)
        {
            int code = (int)(window >> (64 - length));
            if (code < _endOfLength[length])
            {
                int index = code + _symbolOffset[length];
                return index >= 0 && index < _symbols.Length ? (length << 8) | _symbols[index] : 0;
            }
        }

        return 0;
    }
}
