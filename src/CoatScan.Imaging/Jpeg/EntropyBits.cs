using System.Buffers;
using System.Buffers.Binary;

namespace CoatScan.Imaging.Jpeg;

/// <summary>The bits of one scan with escapes removed, and where its restarts stand.</summary>
internal sealed class EntropyBits : IDisposable
{
    // So that a window of 8 bytes can be read anywhere up to the end.
    private const int PaddingBytes = 16;

    private readonly List<int> _restarts = [];
    private readonly byte[] _data;
    private int _restartIndex;
    private long _position;
    private long _end;

    /// <summary>Copies the data of a scan.</summary>
    public EntropyBits(ReadOnlySpan<byte> coded)
    {
        _data = ArrayPool<byte>.Shared.Rent(coded.Length + PaddingBytes);
        int written = 0;
        while (!coded.IsEmpty)
        {
            int run = coded.IndexOf((byte)0xFF);
            if (run < 0)
            {
                run = coded.Length;
            }

            coded[..run].CopyTo(_data.AsSpan(written));
            written += run;
            coded = coded[run..];
            if (coded.Length < 2)
            {
                break;
            }

            if (coded[1] == 0)
            {
                _data[written++] = 0xFF;
            }
            else if (JpegMarker.IsRestart(coded[1]))
            {
                if (coded[1] - JpegMarker.FirstRestart != _restarts.Count % 8)
                {
                    throw Refusal.Unreadable("the restart markers of the JPEG are out of order");
                }

                _restarts.Add(written);
            }

            coded = coded[(coded[1] == 0xFF ? 1 : 2)..];
        }

        _data.AsSpan(written, PaddingBytes).Clear();
        _restarts.Add(written);
        _end = 8L * _restarts[0];
    }

    /// <summary>The next bits, left aligned, at least 56 of them.</summary>
    public ulong Peek() =>
        BinaryPrimitives.ReadUInt64BigEndian(_data.AsSpan((int)(_position >> 3))) << (int)(_position & 7);

    /// <summary>Passes over bits.</summary>
    public void Skip(int count)
    {
        _position += count;
        if (_position > _end)
        {
            throw Refusal.Truncated("the compressed data of the JPEG is cut");
        }
    }

    /// <summary>The next code's symbol.</summary>
    public int Symbol(HuffmanTable table)
    {
        int entry = table.Find(Peek());
        if (entry == 0)
        {
            throw _end - _position < 16
                ? Refusal.Truncated("the compressed data of the JPEG is cut")
                : Refusal.Unreadable("the compressed data of the JPEG is damaged");
        }

        Skip(entry >> 8);
        return entry & 0xFF;
    }

    /// <summary>The next code's symbol; passes over the bits that follow the code, as many as the symbol's low half says.</summary>
    public int SymbolWithBits(HuffmanTable table)
    {
        int entry = table.Find(Peek());
        long position = _position + (entry >> 8) + (entry & 15);
        if (entry == 0 || position > _end)
        {
            // The slow way finds the right words for it.
            int symbol = Symbol(table);
            Skip(symbol & 15);
            return symbol;
        }

        _position = position;
        return entry & 0xFF;
    }

    /// <summary>The next bits as a number; at most 16.</summary>
    public int Read(int count)
    {
        int value = count == 0 ? 0 : (int)(Peek() >> (64 - count));
        Skip(count);
        return value;
    }

    /// <summary>The next bits as a number with a sign; at most 15. ITU-T T.81 F.2.2.1, EXTEND.</summary>
    public int Signed(int count)
    {
        int value = Read(count);
        return count > 0 && value >> (count - 1) == 0 ? value - (1 << count) + 1 : value;
    }

    /// <summary>Goes to the next restart marker.</summary>
    public void Restart()
    {
        if (_restartIndex + 1 >= _restarts.Count)
        {
            throw Refusal.Truncated("restart markers of the JPEG are missing");
        }

        _position = 8L * _restarts[_restartIndex];
        _restartIndex++;
        _end = 8L * _restarts[_restartIndex];
    }

    /// <summary>Gives the copy back.</summary>
    public void Dispose() => ArrayPool<byte>.Shared.Return(_data);
}
