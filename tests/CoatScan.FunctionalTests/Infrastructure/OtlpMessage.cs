using System.Buffers.Binary;
using System.Text;
using Google.Protobuf;

namespace CoatScan.FunctionalTests.Infrastructure;

/// <summary>A protobuf message read by field numbers, so that a test needs no copy of the collector's contract.</summary>
/// <param name="bytes">The message.</param>
internal sealed class OtlpMessage(ReadOnlyMemory<byte> bytes)
{
    /// <summary>Every message that lies at the end of a path of field numbers.</summary>
    public IEnumerable<OtlpMessage> At(params ReadOnlySpan<int> path)
    {
        IEnumerable<OtlpMessage> found = [this];
        foreach (var number in path)
        {
            found = found.SelectMany(message => message.Fields(number)).Select(field => new OtlpMessage(field)).ToList();
        }

        return found;
    }

    /// <summary>The text of a field; empty without it.</summary>
    public string Text(int number) => Encoding.UTF8.GetString(Fields(number).FirstOrDefault().Span);

    /// <summary>The bytes of a field as lowercase hexadecimal digits; empty without it.</summary>
    public string Hex(int number) => Convert.ToHexStringLower(Fields(number).FirstOrDefault().Span);

    /// <summary>The signed number of a field of 64 fixed bits; 0 without it.</summary>
    public long Fixed64(int number) =>
        Fields(number).FirstOrDefault() is { IsEmpty: false } field ? BinaryPrimitives.ReadInt64LittleEndian(field.Span) : 0;

    private List<ReadOnlyMemory<byte>> Fields(int number)
    {
        var found = new List<ReadOnlyMemory<byte>>();
        var input = new CodedInputStream(bytes.ToArray());
        while (input.ReadTag() is var tag and not 0)
        {
            if (WireFormat.GetTagFieldNumber(tag) != number)
            {
                input.SkipLastField();
            }
            else if (WireFormat.GetTagWireType(tag) == WireFormat.WireType.LengthDelimited)
            {
                found.Add(input.ReadBytes().Memory);
            }
            else if (WireFormat.GetTagWireType(tag) == WireFormat.WireType.Fixed64)
            {
                var number64 = new byte[sizeof(long)];
                BinaryPrimitives.WriteUInt64LittleEndian(number64, input.ReadFixed64());
                found.Add(number64);
            }
            else
            {
                input.SkipLastField();
            }
        }

        return found;
    }
}
