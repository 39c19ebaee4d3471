using CoatScan.Findings;
using CoatScan.Imaging;

namespace CoatScan.ImagingTests.Png;

public sealed class PngPhotosTests
{
    [Fact]
    public void Decode_16_bit_rounds_to_8()
    {
        // 0x80FF / 257 = 128.49 and 0x8180 / 257 = 128.996; 0x007F / 257 = 0.494 and 0x0090 / 257 = 0.56.
        byte[] row = [0x80, 0xFF, 0x81, 0x80, 0xFF, 0xFF, 0x00, 0x00, 0x00, 0x7F, 0x00, 0x90];
        byte[] png = [.. PngBytes.Signature, .. PngBytes.Header(2, 1, 16), .. PngBytes.Data([0, .. row]), .. PngBytes.End];

        using DecodedPhoto photo = TestPhotos.Decode(png);

        Assert.Equal([128, 129, 255, 0, 0, 1], photo.StoredRow(0).ToArray());
    }

    [Fact]
    public void Decode_gray_and_palette_are_taken()
    {
        byte[] gray = [.. PngBytes.Signature, .. PngBytes.Header(4, 2, 4, 0), .. PngBytes.Data([0, 0x0F, 0x5A, 0, 0xF0, 0xA5]), .. PngBytes.End];
        byte[] palette =
        [
            .. PngBytes.Signature, .. PngBytes.Header(8, 1, 1, 3), .. PngBytes.Chunk("PLTE"u8, [10, 20, 30, 200, 100, 50]),
            .. PngBytes.Data([0, 0b0100_0000]), .. PngBytes.End,
        ];

        using DecodedPhoto first = TestPhotos.Decode(gray);
        using DecodedPhoto second = TestPhotos.Decode(palette);

        Assert.Equal([0, 0, 0, 255, 255, 255, 85, 85, 85], first.StoredRow(0)[..9].ToArray());
        Assert.Equal([10, 20, 30, 200, 100, 50], second.StoredRow(0)[..6].ToArray());
    }

    [Theory]
    [InlineData(5, 5)]
    [InlineData(5, 1)]
    [InlineData(9, 3)]
    [InlineData(61, 37)]
    public void Decode_interlaced_gives_the_pixels(int width, int height)
    {
        using DecodedPhoto photo = TestPhotos.Decode(Interlaced(width, height));

        for (int y = 0; y < height; y++)
        {
            for (int x = 0; x < width; x++)
            {
                Assert.Equal(Level(x, y), photo.StoredRow(y)[3 * x]);
            }
        }
    }

    [Theory]
    [InlineData(1, 1)]
    [InlineData(2, 2)]
    [InlineData(4, 8)]
    public void Decode_interlaced_so_narrow_that_the_library_would_hang_is_refused(int width, int height) =>
        Assert.Equal(ErrorReason.PhotoUnreadable, TestPhotos.Refusal(Interlaced(width, height)).Reason);

    [Theory]
    [InlineData(255, false)]
    [InlineData(254, true)]
    [InlineData(0, true)]
    public void Decode_alpha_is_taken_only_if_opaque(byte alpha, bool isRefused)
    {
        byte[] png =
        [
            .. PngBytes.Signature, .. PngBytes.Header(2, 1, 8, 6), .. PngBytes.Data([0, 1, 2, 3, 255, 4, 5, 6, alpha]), .. PngBytes.End,
        ];
        if (isRefused)
        {
            CoatScanException refusal = TestPhotos.Refusal(png);
            Assert.Equal(ErrorReason.PhotoColorModelNotAllowed, refusal.Reason);
            Assert.Contains("transparent", refusal.Message, StringComparison.Ordinal);
            return;
        }

        using DecodedPhoto photo = TestPhotos.Decode(png);
        Assert.Equal([1, 2, 3, 4, 5, 6], photo.StoredRow(0).ToArray());
    }

    [Fact]
    public void Decode_without_end_or_with_a_short_chunk_is_truncated()
    {
        byte[] png = TestPhotos.PatternPng();

        Assert.Equal(ErrorReason.PhotoTruncated, TestPhotos.Refusal(png[..^12]).Reason);
        for (int length = 8; length < png.Length; length += 97)
        {
            Assert.Equal(ErrorReason.PhotoTruncated, TestPhotos.Refusal(png[..length]).Reason);
        }
    }

    [Fact]
    public void Decode_missing_rows_are_truncated()
    {
        byte[] rows = PngBytes.Rows(3, new byte[12]);

        byte[] png = [.. PngBytes.Signature, .. PngBytes.Header(4, 4), .. PngBytes.Data(rows), .. PngBytes.End];

        Assert.Equal(ErrorReason.PhotoTruncated, TestPhotos.Refusal(png).Reason);
    }

    [Fact]
    public void Decode_more_data_than_the_size_calls_for_is_unreadable()
    {
        byte[] png = [.. PngBytes.Signature, .. PngBytes.Header(4, 4), .. PngBytes.Data(new byte[10_000_000]), .. PngBytes.End];

        Assert.Equal(ErrorReason.PhotoUnreadable, TestPhotos.Refusal(png).Reason);
    }

    [Fact]
    public void Decode_unknown_filter_or_damaged_data_is_unreadable()
    {
        byte[] rows = PngBytes.Rows(4, new byte[12]);
        rows[13] = 5;
        byte[] filter = [.. PngBytes.Signature, .. PngBytes.Header(4, 4), .. PngBytes.Data(rows), .. PngBytes.End];
        byte[] data = PngBytes.Deflate(PngBytes.Rows(4, new byte[12]));
        data[^1] ^= 1;
        byte[] checksum = [.. PngBytes.Signature, .. PngBytes.Header(4, 4), .. PngBytes.Chunk("IDAT"u8, data), .. PngBytes.End];

        Assert.Equal(ErrorReason.PhotoUnreadable, TestPhotos.Refusal(filter).Reason);
        Assert.Equal(ErrorReason.PhotoUnreadable, TestPhotos.Refusal(checksum).Reason);
    }

    [Theory]
    [InlineData(1, false)]
    [InlineData(2, true)]
    public void Decode_animation_of_more_than_one_frame_is_refused(byte frames, bool isRefused)
    {
        byte[] png = PngBytes.WithChunks(TestPhotos.PatternPng(), PngBytes.Chunk("acTL"u8, [0, 0, 0, frames, 0, 0, 0, 0]));
        if (isRefused)
        {
            Assert.Equal(ErrorReason.PhotoMultiFrame, TestPhotos.Refusal(png).Reason);
        }
        else
        {
            TestPhotos.Decode(png).Dispose();
        }
    }

    [Theory]
    [InlineData(3, 2)]
    [InlineData(8, 5)]
    [InlineData(16, 3)]
    [InlineData(4, 2)]
    public void Decode_impossible_header_is_unreadable(byte depth, byte colorType)
    {
        byte[] png =
        [
            .. PngBytes.Signature, .. PngBytes.Header(4, 4, depth, colorType), .. PngBytes.Data(new byte[400]), .. PngBytes.End,
        ];

        Assert.Equal(ErrorReason.PhotoUnreadable, TestPhotos.Refusal(png).Reason);
    }

    [Fact]
    public void Decode_wrong_checksum_or_unknown_critical_chunk_is_unreadable()
    {
        byte[] png = TestPhotos.PatternPng();
        byte[] unknown = PngBytes.WithChunks(png, PngBytes.Chunk("ABCD"u8, [1]));

        Assert.Equal(ErrorReason.PhotoUnreadable, TestPhotos.Refusal(JpegBytes.With(png, 32, (byte)(png[32] ^ 1))).Reason);
        Assert.Equal(ErrorReason.PhotoUnreadable, TestPhotos.Refusal(unknown).Reason);
    }

    private static byte Level(int x, int y) => (byte)(((x * 7) + (y * 13)) % 251);

    internal static byte[] Interlaced(int width, int height)
    {
        (int X, int Y, int StepX, int StepY)[] passes =
            [(0, 0, 8, 8), (4, 0, 8, 8), (0, 4, 4, 8), (2, 0, 4, 4), (0, 2, 2, 4), (1, 0, 2, 2), (0, 1, 1, 2)];
        var rows = new List<byte>();
        foreach (var (left, top, stepX, stepY) in passes)
        {
            for (int y = top; y < height && left < width; y += stepY)
            {
                rows.Add(0);
                for (int x = left; x < width; x += stepX)
                {
                    rows.Add(Level(x, y));
                }
            }
        }

        return [.. PngBytes.Signature, .. PngBytes.Header(width, height, 8, 0, 1), .. PngBytes.Data([.. rows]), .. PngBytes.End];
    }
}
