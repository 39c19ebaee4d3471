using System.Buffers.Binary;

namespace CoatScan.Imaging.Png;

/// <summary>Walks the chunks of a PNG from its signature to IEND, and refuses what the service does not take.</summary>
/// <remarks>Time is proportional to the bytes; no pixel is decoded. Layout: PNG specification, third edition, from memory.</remarks>
internal sealed class PngScanner(ReadOnlyMemory<byte> bytes, ImagingOptions options)
{
    private const int SignatureBytes = 8;
    private const int ChunkOverheadBytes = 12;
    private const int MinInterlacedWidthPx = 5;
    private const int MaxChunks = 1_000_000;

    private readonly List<(int Offset, int Length)> _dataParts = [];
    private readonly PngColor _color = new(options.MaxColorProfileBytes);
    private ExifFacts? _exif;
    private int _width;
    private int _height;
    private int _bitDepth;
    private int _colorType;
    private bool _isInterlaced;
    private bool _hasPalette;
    private bool _hasTransparency;

    /// <summary>The structure of the photo.</summary>
    public PngStructure Scan(CancellationToken cancellationToken)
    {
        int position = SignatureBytes;
        for (int count = 0; ; count++)
        {
            cancellationToken.ThrowIfCancellationRequested();
            ReadOnlySpan<byte> rest = bytes.Span[position..];
            if (rest.Length < ChunkOverheadBytes)
            {
                throw Refusal.Truncated("the PNG has no IEND chunk");
            }

            uint length = BinaryPrimitives.ReadUInt32BigEndian(rest);
            if (length > rest.Length - ChunkOverheadBytes)
            {
                throw Refusal.Truncated("a chunk of the PNG is cut");
            }

            if (count > MaxChunks)
            {
                throw Refusal.Unreadable($"the PNG has more than {MaxChunks} chunks");
            }

            ReadOnlySpan<byte> type = rest[4..8];
            if (count == 0 != type.SequenceEqual("IHDR"u8))
            {
                throw Refusal.Unreadable("the PNG does not begin with its one header");
            }

            int offset = position + 8;
            position = offset + (int)length + 4;
            if (type.SequenceEqual("IEND"u8))
            {
                return Finish(position);
            }

            Interpret(type, offset, (int)length);
        }
    }

    private void Interpret(ReadOnlySpan<byte> type, int offset, int length)
    {
        ReadOnlySpan<byte> body = bytes.Span.Slice(offset, length);
        if (type.SequenceEqual("IDAT"u8))
        {
            _dataParts.Add((offset, length));
            return;
        }

        if (type.SequenceEqual("IHDR"u8))
        {
            RequireChecksum(type, body, offset + length);
            ReadHeader(body);
        }
        else if (type.SequenceEqual("PLTE"u8))
        {
            _hasPalette = true;
        }
        else if (type.SequenceEqual("tRNS"u8))
        {
            _hasTransparency = true;
        }
        else if (type.SequenceEqual("acTL"u8))
        {
            RequireOneFrame(body);
        }
        else if (type.SequenceEqual("eXIf"u8))
        {
            _exif ??= ExifReader.Read(body);
        }
        else if (PngColor.Knows(type))
        {
            RequireChecksum(type, body, offset + length);
            _color.Add(type, body);
        }
        else if ((type[0] & 0x20) == 0)
        {
            throw Refusal.Unreadable("the PNG has an unknown critical chunk");
        }
    }

    private static void RequireOneFrame(ReadOnlySpan<byte> body)
    {
        // An animation of one frame is a still photo.
        uint frames = body.Length >= 4 ? BinaryPrimitives.ReadUInt32BigEndian(body) : 0;
        if (frames != 1)
        {
            throw Refusal.MultiFrame("it is an animated PNG");
        }
    }

    private void RequireChecksum(ReadOnlySpan<byte> type, ReadOnlySpan<byte> body, int checksumOffset)
    {
        if (Crc32.Compute(type, body) != BinaryPrimitives.ReadUInt32BigEndian(bytes.Span[checksumOffset..]))
        {
            throw Refusal.Unreadable("a checksum of the PNG is wrong");
        }
    }

    private void ReadHeader(ReadOnlySpan<byte> body)
    {
        if (body.Length != 13)
        {
            throw Refusal.Unreadable("the header of the PNG is damaged");
        }

        uint width = BinaryPrimitives.ReadUInt32BigEndian(body);
        uint height = BinaryPrimitives.ReadUInt32BigEndian(body[4..]);
        _bitDepth = body[8];
        _colorType = body[9];
        _isInterlaced = body[12] == 1;
        bool isAllowedDepth = _colorType switch
        {
            0 => _bitDepth is 1 or 2 or 4 or 8 or 16,
            3 => _bitDepth is 1 or 2 or 4 or 8,
            2 or 4 or 6 => _bitDepth is 8 or 16,
            _ => false,
        };
        if (width is 0 or > int.MaxValue || height is 0 or > int.MaxValue || !isAllowedDepth
            || body[10] != 0 || body[11] != 0 || body[12] > 1)
        {
            throw Refusal.Unreadable("the header of the PNG is damaged");
        }

        // The image library never comes back from an interlaced picture whose second pass is empty, which is one under 5 px wide
        // (2.1.13, seen). No photo is that narrow.
        if (_isInterlaced && width < MinInterlacedWidthPx)
        {
            throw Refusal.Unreadable($"it is interlaced and under {MinInterlacedWidthPx} px wide");
        }

        _width = (int)width;
        _height = (int)height;
    }

    private PngStructure Finish(int end)
    {
        if (_dataParts.Count == 0 || (_colorType == 3 && !_hasPalette))
        {
            throw Refusal.Unreadable("the PNG holds no picture");
        }

        return new PngStructure
        {
            WidthPx = _width,
            HeightPx = _height,
            Exif = _exif ?? ExifFacts.None,
            ColorSpace = _color.Read(_colorType is 0 or 4, (_exif ?? ExifFacts.None).UntaggedColorSpace),
            LengthBytes = end,
            BitDepth = _bitDepth,
            ColorType = _colorType,
            IsInterlaced = _isInterlaced,
            HasTransparency = _hasTransparency,
            DataParts = _dataParts,
        };
    }
}
