using System.Buffers;
using System.IO.Compression;

namespace CoatScan.Imaging.Png;

/// <summary>Inflates the pixel data of a PNG row by row, keeping nothing, to find data that is cut or damaged.</summary>
/// <remarks>
/// The decoder does not report missing rows: it leaves them empty. Reads at most the bytes that the header calls for, so a small
/// file cannot be made to inflate without end.
/// </remarks>
internal static class PngDataCheck
{
    // Start and step of the passes of Adam7: x, y, step x, step y; PNG specification section 8, from memory.
    private static readonly (int X, int Y, int StepX, int StepY)[] Passes =
    [
        (0, 0, 8, 8), (4, 0, 8, 8), (0, 4, 4, 8), (2, 0, 4, 4), (0, 2, 2, 4), (1, 0, 2, 2), (0, 1, 1, 2),
    ];

    /// <summary>Checks that every row is there and names a filter that exists.</summary>
    public static void Run(PngStructure png, ReadOnlyMemory<byte> bytes, CancellationToken cancellationToken)
    {
        using var parts = new ChunkDataStream(bytes, png.DataParts);
        using var inflated = new ZLibStream(parts, CompressionMode.Decompress);
        if (!png.IsInterlaced)
        {
            ReadRows(png, inflated, png.WidthPx, png.HeightPx, cancellationToken);
        }
        else
        {
            foreach (var (x, y, stepX, stepY) in Passes)
            {
                int width = (png.WidthPx - x + stepX - 1) / stepX;
                int height = (png.HeightPx - y + stepY - 1) / stepY;
                if (width > 0 && height > 0)
                {
                    ReadRows(png, inflated, width, height, cancellationToken);
                }
            }
        }

        RequireEnd(inflated);
    }

    private static void ReadRows(PngStructure png, ZLibStream inflated, int width, int height, CancellationToken cancellationToken)
    {
        int rowBytes = 1 + (int)((((long)width * png.BitsPerPx) + 7) / 8);
        byte[] row = ArrayPool<byte>.Shared.Rent(rowBytes);
        try
        {
            for (int y = 0; y < height; y++)
            {
                cancellationToken.ThrowIfCancellationRequested();
                if (Read(inflated, row.AsSpan(0, rowBytes)) < rowBytes)
                {
                    throw Refusal.Truncated("rows of the PNG are missing");
                }

                if (row[0] > 4)
                {
                    throw Refusal.Unreadable("a row of the PNG has an unknown filter");
                }
            }
        }
        finally
        {
            ArrayPool<byte>.Shared.Return(row);
        }
    }

    /// <summary>Reads to the end of the compressed data, where its checksum stands.</summary>
    private static void RequireEnd(ZLibStream inflated)
    {
        Span<byte> rest = stackalloc byte[1];
        if (Read(inflated, rest) != 0)
        {
            throw Refusal.Unreadable("the PNG holds more data than its size calls for");
        }
    }

    private static int Read(ZLibStream inflated, Span<byte> into)
    {
        try
        {
            return inflated.ReadAtLeast(into, into.Length, throwOnEndOfStream: false);
        }
        catch (InvalidDataException e)
        {
            throw Refusal.Unreadable("the compressed data of the PNG is damaged", e);
        }
    }
}
