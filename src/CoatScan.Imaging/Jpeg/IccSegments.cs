namespace CoatScan.Imaging.Jpeg;

/// <summary>Joins a color profile that a JPEG spreads over several APP2 segments.</summary>
/// <remarks>Layout: ICC.1 annex B.4, from memory: name with a zero byte, number from 1, count, then the part.</remarks>
internal sealed class IccSegments(int maxBytes)
{
    private const int HeaderBytes = 14;

    private readonly SortedDictionary<int, byte[]> _parts = [];
    private int _count;
    private int _bytes;

    /// <summary>Takes a segment if it is a part of a profile.</summary>
    public void Add(ReadOnlySpan<byte> body)
    {
        if (body.Length < HeaderBytes || !body.StartsWith("ICC_PROFILE\0"u8))
        {
            return;
        }

        int number = body[12];
        int count = body[13];
        if (number == 0 || number > count || (_count != 0 && count != _count) || _parts.ContainsKey(number))
        {
            throw Refusal.ColorProfile("its parts contradict each other");
        }

        _count = count;
        _bytes += body.Length - HeaderBytes;
        if (_bytes > maxBytes)
        {
            throw Refusal.ColorProfile($"it is larger than {maxBytes} bytes");
        }

        _parts.Add(number, body[HeaderBytes..].ToArray());
    }

    /// <summary>The whole profile; empty if there is none.</summary>
    public byte[] Join()
    {
        if (_parts.Count != _count)
        {
            throw Refusal.ColorProfile($"only {_parts.Count} of its {_count} parts are there");
        }

        return [.. _parts.Values.SelectMany(part => part)];
    }
}
