using System.Buffers.Binary;

namespace CoatScan.Imaging.Jpeg;

/// <summary>Reads every Huffman code of a JPEG without decoding a pixel, to find data that is cut or damaged.</summary>
/// <remarks>
/// The decoder does not report missing data: it leaves the rest of the picture empty, and a panel with an empty lower half would be
/// measured as if it were paint. Here every block must be there. Sequential and progressive: ITU-T T.81 annexes F and G. The means of
/// the blocks are kept on the way: the decoder rounds them to whole codes.
/// </remarks>
internal sealed class JpegEntropyCheck
{
    private readonly JpegStructure _frame;
    private readonly ComponentProgress[] _progress;
    private readonly HuffmanTable?[] _dc = new HuffmanTable?[4];
    private readonly HuffmanTable?[] _ac = new HuffmanTable?[4];
    private readonly int _unitsX;
    private readonly int _unitsY;
    private int _restartInterval;

    public JpegEntropyCheck(JpegStructure frame)
    {
        _frame = frame;
        int horizontal = frame.Components.Max(component => component.Horizontal);
        int vertical = frame.Components.Max(component => component.Vertical);
        _unitsX = (frame.WidthPx + (8 * horizontal) - 1) / (8 * horizontal);
        _unitsY = (frame.HeightPx + (8 * vertical) - 1) / (8 * vertical);
        _progress = [.. frame.Components.Select(c => new ComponentProgress(c, frame, horizontal, vertical))];
    }

    /// <summary>Checks all scans.</summary>
    /// <returns>Means of the blocks; null if the components are not brightness and color differences, or a table is missing.</returns>
    /// <exception cref="Findings.CoatScanException">The data is cut or damaged.</exception>
    public BlockMeans? Run(ReadOnlySpan<byte> bytes, CancellationToken cancellationToken)
    {
        foreach (JpegSegment segment in _frame.Segments)
        {
            ReadOnlySpan<byte> body = bytes.Slice(segment.Offset, segment.Length);
            if (segment.Marker == JpegMarker.HuffmanTables)
            {
                ReadTables(body);
            }
            else if (segment.Marker == JpegMarker.RestartInterval)
            {
                _restartInterval = body.Length >= 2
                    ? BinaryPrimitives.ReadUInt16BigEndian(body)
                    : throw Refusal.Unreadable("the restart interval of the JPEG is damaged");
            }
            else
            {
                ReadScan(body, bytes.Slice(segment.DataOffset, segment.DataLength), cancellationToken);
            }
        }

        if (!Array.TrueForAll(_progress, component => component.IsComplete))
        {
            throw Refusal.Truncated("scans of the JPEG are missing");
        }

        return _frame.IsYCbCr ? BlockMeans.Of(_progress, _frame.Quantizers) : null;
    }

    private void ReadTables(ReadOnlySpan<byte> body)
    {
        while (!body.IsEmpty)
        {
            int total = 0;
            for (int i = 1; i <= 16 && i < body.Length; i++)
            {
                total += body[i];
            }

            if (body.Length < 17 + total || total > 256 || (body[0] & 15) > 3 || body[0] >> 4 > 1)
            {
                throw Refusal.Unreadable("a Huffman table of the JPEG is damaged");
            }

            HuffmanTable?[] tables = body[0] >> 4 == 0 ? _dc : _ac;
            tables[body[0] & 15] = new HuffmanTable(body[1..17], body.Slice(17, total));
            body = body[(17 + total)..];
        }
    }

    private void ReadScan(ReadOnlySpan<byte> body, ReadOnlySpan<byte> data, CancellationToken cancellationToken)
    {
        var scan = ScanHeader.Read(body, _frame);
        foreach ((int component, _, _) in scan.Components)
        {
            _progress[component].Begin(scan);
        }

        using var bits = new EntropyBits(data);
        BlockReader[] readers = [.. scan.Components.Select(c => CreateReader(scan, c.Component, c.Dc, c.Ac, bits))];
        bool isInterleaved = readers.Length > 1;
        int across = isInterleaved ? _unitsX : _progress[scan.Components[0].Component].BlocksX;
        int down = isInterleaved ? _unitsY : _progress[scan.Components[0].Component].BlocksY;
        int untilRestart = _restartInterval;
        for (int y = 0; y < down; y++)
        {
            cancellationToken.ThrowIfCancellationRequested();
            for (int x = 0; x < across; x++)
            {
                if (_restartInterval > 0 && untilRestart == 0)
                {
                    bits.Restart();
                    Array.ForEach(readers, reader => reader.Restart());
                    untilRestart = _restartInterval;
                }

                untilRestart--;
                if (isInterleaved)
                {
                    ReadUnit(readers, x, y);
                }
                else
                {
                    readers[0].Read(x, y);
                }
            }
        }
    }

    private static void ReadUnit(BlockReader[] readers, int x, int y)
    {
        foreach (BlockReader reader in readers)
        {
            JpegComponent component = reader.Component;
            for (int v = 0; v < component.Vertical; v++)
            {
                for (int h = 0; h < component.Horizontal; h++)
                {
                    reader.Read((x * component.Horizontal) + h, (y * component.Vertical) + v);
                }
            }
        }
    }

    private BlockReader CreateReader(ScanHeader scan, int component, int dc, int ac, EntropyBits bits)
    {
        bool needsDc = scan.First == 0 && scan.HighBit == 0;
        if ((needsDc && _dc[dc] is null) || (scan.Last > 0 && _ac[ac] is null))
        {
            throw Refusal.Unreadable("a Huffman table of the JPEG is missing");
        }

        ComponentProgress progress = _progress[component];
        return !_frame.IsProgressive ? new SequentialBlockReader(progress, bits, _dc[dc]!, _ac[ac]!)
            : scan.First == 0 ? new ProgressiveDcReader(progress, bits, scan, _dc[dc])
            : new ProgressiveAcReader(progress, bits, scan, _ac[ac]!);
    }
}
