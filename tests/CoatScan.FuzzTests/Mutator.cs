using System.Globalization;
using System.Text;

namespace CoatScan.FuzzTests;

/// <summary>Changes inputs a little, or a lot; the same seed makes the same changes.</summary>
internal sealed class Mutator(int seed)
{
    private const int MostBytes = 64 * 1024;

    private static readonly int[] Edges = [0, 1, 7, 8, 127, 128, 255, 256, 32767, 32768, 65535, 65536, int.MaxValue, int.MinValue, -1];

    private static readonly string[] EdgeTexts =
    [
        "0", "-1", "1e400", "NaN", "-0", "2147483648", "9223372036854775808", "null", "true", "\"\"", "[]", "{}", "\u0000", "\\ud800",
        "../", "%00", "\u202e", "é", "💧", "~", "*", "&a", "!!str", "---", "<<: ",
    ];

    private readonly Random _random = new(seed);

    /// <summary>The source of all choices.</summary>
    public Random Random => _random;

    /// <summary>One of some.</summary>
    public T Pick<T>(IReadOnlyList<T> from) => from[_random.Next(from.Count)];

    /// <summary>An input with one to a few changes.</summary>
    /// <param name="input">Input to change; left as it is.</param>
    /// <param name="corpus">Others to take pieces from.</param>
    /// <param name="firstByte">What lies before is not touched.</param>
    public byte[] Change(byte[] input, IReadOnlyList<byte[]> corpus, int firstByte = 0)
    {
        var bytes = new List<byte>(input);
        for (var changes = 1 << _random.Next(4); changes > 0; changes--)
        {
            ChangeOnce(bytes, corpus, firstByte);
        }

        return [.. bytes.Take(MostBytes)];
    }

    private void ChangeOnce(List<byte> bytes, IReadOnlyList<byte[]> corpus, int first)
    {
        if (bytes.Count <= first)
        {
            bytes.Add((byte)_random.Next(256));
            return;
        }

        var at = _random.Next(first, bytes.Count);
        var count = Math.Min(bytes.Count - at, 1 + _random.Next(1 << _random.Next(8)));
        switch (_random.Next(11))
        {
            case 0:
                bytes[at] ^= (byte)(1 << _random.Next(8));
                break;
            case 1:
                bytes[at] = (byte)_random.Next(256);
                break;
            case 2:
                bytes.RemoveRange(at, count);
                break;
            case 3:
                bytes.InsertRange(at, bytes.GetRange(at, count));
                break;
            case 4:
                bytes.RemoveRange(at, bytes.Count - at);
                break;
            case 5:
                Overwrite(bytes, at, Number());
                break;
            case 6:
                bytes.InsertRange(at, Encoding.UTF8.GetBytes(Pick(EdgeTexts)));
                break;
            case 7:
                var other = Pick(corpus);
                var from = _random.Next(other.Length + 1);
                bytes.InsertRange(at, other.Skip(from).Take(count));
                break;
            case 8:
                ReplaceNumber(bytes, at);
                break;
            case 9:
                (bytes[at], bytes[first + _random.Next(bytes.Count - first)]) = (bytes[first + _random.Next(bytes.Count - first)], bytes[at]);
                break;
            default:
                bytes.InsertRange(at, Enumerable.Repeat(bytes[at], count * 16));
                break;
        }
    }

    private byte[] Number()
    {
        var bytes = BitConverter.GetBytes(Pick(Edges))[..(1 << _random.Next(3))];
        if (_random.Next(2) == 0)
        {
            Array.Reverse(bytes);
        }

        return bytes;
    }

    private static void Overwrite(List<byte> bytes, int at, byte[] with)
    {
        for (var i = 0; i < with.Length && at + i < bytes.Count; i++)
        {
            bytes[at + i] = with[i];
        }
    }

    // The next run of digits becomes another number or an odd text.
    private void ReplaceNumber(List<byte> bytes, int at)
    {
        var start = bytes.FindIndex(at, one => char.IsAsciiDigit((char)one));
        if (start < 0)
        {
            return;
        }

        var end = bytes.FindIndex(start, one => !char.IsAsciiDigit((char)one));
        bytes.RemoveRange(start, (end < 0 ? bytes.Count : end) - start);
        var text = _random.Next(2) == 0 ? Pick(EdgeTexts) : Pick(Edges).ToString(CultureInfo.InvariantCulture);
        bytes.InsertRange(start, Encoding.UTF8.GetBytes(text));
    }
}
