using System.Buffers.Binary;
using CoatScan.Imaging.Color;

namespace CoatScan.Imaging.Jpeg;

/// <summary>Walks the markers of a JPEG from its start to its own end, and refuses what the service does not take.</summary>
/// <remarks>
/// Stops at the first end marker: phones append previews, gain maps and videos behind it, and those are neither a second frame nor
/// a fault. Time is proportional to the bytes; no pixel is decoded. Layout: ITU-T T.81 annex B.
/// </remarks>
internal sealed class JpegScanner(ReadOnlyMemory<byte> bytes, ImagingOptions options)
{
    private const int MaxSegments = 65_536;

    private readonly List<JpegSegment> _segments = [];
    private readonly IccSegments _profile = new(options.MaxColorProfileBytes);
    private ExifFacts? _exif;
    private JpegComponent[]? _components;
    private readonly QuantizerSteps?[] _quantizers = new QuantizerSteps?[4];
    private int? _adobeTransform;
    private bool _isProgressive;
    private int _width;
    private int _height;
    private int _scanCount;
    private int _position = 2;

    /// <summary>The structure of the still photo.</summary>
    public JpegStructure Scan(CancellationToken cancellationToken)
    {
        for (int count = 0; ; count++)
        {
            cancellationToken.ThrowIfCancellationRequested();
            if (count > MaxSegments)
            {
                throw Refusal.Unreadable($"the JPEG has more than {MaxSegments} segments");
            }

            byte marker = NextMarker();
            if (marker == JpegMarker.EndOfImage)
            {
                return Finish();
            }

            if (marker != JpegMarker.Temporary)
            {
                ReadSegment(marker);
            }
        }
    }

    private JpegStructure Finish()
    {
        if (_components is null || _scanCount == 0)
        {
            throw Refusal.Unreadable("the JPEG holds no picture");
        }

        return new JpegStructure
        {
            WidthPx = _width,
            HeightPx = _height,
            Exif = _exif ?? ExifFacts.None,
            ColorSpace = ReadColorSpace(_components),
            LengthBytes = _position,
            IsProgressive = _isProgressive,
            Components = _components,
            Segments = _segments,
            Quantizer = _quantizers[_components[0].Quantizer],
            Quantizers = _quantizers,
            IsYCbCr = _components.Length == 3 && _adobeTransform != 0 && !(_components[0].Id == 'R' && _components[1].Id == 'G'),
        };
    }

    private PhotoColorSpace ReadColorSpace(JpegComponent[] components)
    {
        ReadOnlySpan<byte> profile = _profile.Join();
        if (!profile.IsEmpty)
        {
            return IccProfile.Read(profile, components.Length == 1);
        }

        return (_exif ?? ExifFacts.None).UntaggedColorSpace;
    }

    private byte NextMarker()
    {
        ReadOnlySpan<byte> data = bytes.Span;
        if (_position >= data.Length)
        {
            throw Refusal.Truncated("the JPEG has no end marker");
        }

        if (data[_position] != 0xFF)
        {
            throw Refusal.Unreadable("the JPEG has stray bytes between its segments");
        }

        // Any number of fill bytes may stand before a marker.
        while (_position < data.Length && data[_position] == 0xFF)
        {
            _position++;
        }

        return _position < data.Length ? data[_position++] : throw Refusal.Truncated("the JPEG has no end marker");
    }

    private void ReadSegment(byte marker)
    {
        if (marker is 0 or JpegMarker.StartOfImage || JpegMarker.IsRestart(marker))
        {
            throw Refusal.Unreadable("the JPEG has a marker out of place");
        }

        ReadOnlySpan<byte> data = bytes.Span;
        if (data.Length - _position < 2)
        {
            throw Refusal.Truncated("a segment of the JPEG is cut");
        }

        int length = BinaryPrimitives.ReadUInt16BigEndian(data[_position..]) - 2;
        int offset = _position + 2;
        if (length < 0)
        {
            throw Refusal.Unreadable("a segment of the JPEG has an impossible length");
        }

        if (length > data.Length - offset)
        {
            throw Refusal.Truncated("a segment of the JPEG is cut");
        }

        _position = offset + length;
        Interpret(marker, offset, length);
    }

    private void Interpret(byte marker, int offset, int length)
    {
        ReadOnlySpan<byte> body = bytes.Span.Slice(offset, length);
        switch (marker)
        {
            case JpegMarker.BaselineFrame or JpegMarker.ExtendedFrame or JpegMarker.ProgressiveFrame:
                ReadFrame(body);
                _isProgressive = marker == JpegMarker.ProgressiveFrame;
                break;
            case JpegMarker.QuantizationTables:
                QuantizerSteps.ReadInto(_quantizers, body);
                break;
            case JpegMarker.HuffmanTables or JpegMarker.RestartInterval:
                _segments.Add(new JpegSegment(marker, offset, length, 0, 0));
                break;
            case JpegMarker.StartOfScan:
                ReadScan(offset, length);
                break;
            case JpegMarker.App1 when body.StartsWith("Exif\0\0"u8):
                _exif ??= ExifReader.Read(body[6..]);
                break;
            case JpegMarker.App2:
                _profile.Add(body);
                break;
            case JpegMarker.App14 when body.Length >= 12 && body.StartsWith("Adobe"u8):
                _adobeTransform = body[11];
                break;
            case JpegMarker.LosslessFrame or 0xC7 or 0xCB or 0xCF:
                throw Refusal.Format("image/jpeg", "a lossless JPEG; save it as an ordinary JPEG");
            case JpegMarker.ArithmeticConditioning or 0xC9 or 0xCA:
                throw Refusal.Format("image/jpeg", "a JPEG with arithmetic coding; save it as an ordinary JPEG");
            case JpegMarker.Hierarchical or JpegMarker.Expand or 0xC5 or 0xC6 or 0xCD or 0xCE:
                throw Refusal.MultiFrame("it is a hierarchical JPEG");
            case 0xC8:
                throw Refusal.Unreadable("the JPEG uses a reserved kind of frame");
            default:
                break;
        }
    }

    private void ReadFrame(ReadOnlySpan<byte> body)
    {
        if (_components is not null)
        {
            throw Refusal.MultiFrame("the JPEG has two frame headers");
        }

        if (body.Length < 6 || body.Length < 6 + (3 * body[5]))
        {
            throw Refusal.Unreadable("the frame header of the JPEG is damaged");
        }

        if (body[0] != 8)
        {
            throw Refusal.Format("image/jpeg", $"a JPEG with {body[0]} bits a sample; allowed are 8");
        }

        _height = BinaryPrimitives.ReadUInt16BigEndian(body[1..]);
        _width = BinaryPrimitives.ReadUInt16BigEndian(body[3..]);
        if (_width == 0 || _height == 0)
        {
            throw Refusal.Unreadable("the JPEG does not state its size");
        }

        int count = body[5];
        if (count is not (1 or 3))
        {
            string kind = count != 4 ? $"of {count} components" : _adobeTransform == 2 ? "YCCK" : "CMYK";
            throw Refusal.ColorModel($"{kind} ({count} components)");
        }

        _components = new JpegComponent[count];
        for (int i = 0; i < count; i++)
        {
            ReadOnlySpan<byte> part = body.Slice(6 + (3 * i), 3);
            _components[i] = new JpegComponent(part[0], part[1] >> 4, part[1] & 15, part[2] & 3);
            if (_components[i].Horizontal is < 1 or > 4 || _components[i].Vertical is < 1 or > 4)
            {
                throw Refusal.Unreadable("the JPEG has an impossible sampling factor");
            }
        }
    }

    private void ReadScan(int offset, int length)
    {
        if (_components is null)
        {
            throw Refusal.Unreadable("the JPEG has a scan before its frame header");
        }

        if (++_scanCount > options.MaxJpegScans)
        {
            throw Refusal.TooLarge("number of JPEG scans", "", _scanCount, options.MaxJpegScans);
        }

        int start = _position;
        _position = FindScanEnd(start);
        _segments.Add(new JpegSegment(JpegMarker.StartOfScan, offset, length, start, _position - start));
    }

    /// <summary>Where the first marker behind entropy-coded data begins that neither escapes a byte nor restarts.</summary>
    private int FindScanEnd(int start)
    {
        ReadOnlySpan<byte> data = bytes.Span;
        int at = start;
        while (true)
        {
            int step = data[at..].IndexOf((byte)0xFF);
            if (step < 0 || at + step + 1 >= data.Length)
            {
                throw Refusal.Truncated("the JPEG has no end marker");
            }

            at += step;
            byte next = data[at + 1];
            if (next == 0xFF)
            {
                at++;
            }
            else if (next == 0 || JpegMarker.IsRestart(next))
            {
                at += 2;
            }
            else
            {
                return at;
            }
        }
    }
}
