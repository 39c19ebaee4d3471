using CoatScan.Findings;
using CoatScan.Imaging;

namespace CoatScan.ImagingTests.Jpeg;

public sealed class JpegPhotosTests
{
    [Fact]
    public void Decode_progressive_is_taken()
    {
        using DecodedPhoto photo = TestPhotos.Decode(TestPhotos.ProgressiveJpeg);

        Assert.Equal((56, 40), (photo.WidthPx, photo.HeightPx));
    }

    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    [InlineData(3)]
    public void Decode_gray_with_restart_markers_gives_the_levels(int restartInterval)
    {
        using DecodedPhoto photo = TestPhotos.Decode(JpegBytes.GrayBlocks(6, 5, Level, restartInterval));

        for (int block = 0; block < 30; block++)
        {
            ReadOnlySpan<byte> row = photo.StoredRow((block / 6 * 8) + 3);
            int x = 3 * ((block % 6 * 8) + 4);
            Assert.Equal((Level(block), Level(block)), (row[x], row[x + 2]));
        }
    }

    [Fact]
    public void Decode_rgb_jpeg_is_not_read_as_ycbcr()
    {
        // Adobe's marker with transform 0 says that the components are red, green and blue.
        byte[] ycc = PhotoEncoder.EncodeJpeg(TestPhotos.FlatRgb(16, 16, 200, 30, 40), 16, 16, 100);
        byte[] adobe = JpegBytes.WithSegment(ycc, 0xEE, [.. "Adobe"u8, 0, 100, 0, 0, 0, 0, 0]);

        using DecodedPhoto photo = TestPhotos.Decode(adobe);
        byte[] pixel = photo.StoredRow(8)[24..27].ToArray();

        // Rec. 601 luma and chroma of the color, which must come out unchanged: ITU-T T.871.
        Assert.InRange(pixel[0], 79, 85);
        Assert.InRange(pixel[1], 100, 109);
        Assert.InRange(pixel[2], 207, 216);
    }

    [Fact]
    public void Decode_bytes_behind_the_end_are_ignored()
    {
        byte[] jpeg = TestPhotos.PatternJpeg();
        byte[] preview = TestPhotos.PatternJpeg(8, 8);

        using DecodedPhoto photo = TestPhotos.Decode([.. jpeg, .. preview, .. "motion video"u8]);

        Assert.Equal(48, photo.WidthPx);
    }

    [Fact]
    public void Decode_multi_picture_index_is_no_second_frame()
    {
        using DecodedPhoto photo = TestPhotos.Decode(JpegBytes.WithSegment(TestPhotos.PatternJpeg(), 0xE2, "MPF\0MM\0*"u8));

        Assert.Equal(48, photo.WidthPx);
    }

    [Fact]
    public void Decode_without_end_marker_is_truncated() =>
        Assert.Equal(ErrorReason.PhotoTruncated, TestPhotos.Refusal(TestPhotos.PatternJpeg()[..^2]).Reason);

    [Theory]
    [InlineData("baseline")]
    [InlineData("restart")]
    [InlineData("progressive")]
    public void Decode_cut_anywhere_is_truncated_even_with_an_end_marker(string kind)
    {
        byte[] whole = kind switch
        {
            "baseline" => TestPhotos.PatternJpeg(),
            "restart" => JpegBytes.GrayBlocks(6, 5, Level, 4),
            _ => TestPhotos.ProgressiveJpeg,
        };
        TestPhotos.Decode(whole).Dispose();
        for (int length = JpegBytes.Find(whole, 0xDA) + 16; length < whole.Length - 3; length += 1 + (whole.Length / 200))
        {
            Assert.Equal(ErrorReason.PhotoTruncated, TestPhotos.Refusal(whole[..length]).Reason);
            ErrorReason reason = TestPhotos.Refusal([.. whole[..length], 0xFF, 0xD9]).Reason;
            Assert.True(
                reason is ErrorReason.PhotoTruncated or ErrorReason.PhotoUnreadable, $"{kind} cut at {length}: {reason}");
        }
    }

    [Fact]
    public void Decode_cut_in_the_middle_with_an_end_marker_is_truncated()
    {
        byte[] whole = TestPhotos.PatternJpeg();

        Assert.Equal(ErrorReason.PhotoTruncated, TestPhotos.Refusal([.. whole[..(whole.Length * 3 / 4)], 0xFF, 0xD9]).Reason);
    }

    [Theory]
    [InlineData(0xC3, ErrorReason.PhotoFormatNotAllowed, "lossless")]
    [InlineData(0xC9, ErrorReason.PhotoFormatNotAllowed, "arithmetic")]
    [InlineData(0xCA, ErrorReason.PhotoFormatNotAllowed, "arithmetic")]
    [InlineData(0xC5, ErrorReason.PhotoMultiFrame, "hierarchical")]
    [InlineData(0xC8, ErrorReason.PhotoUnreadable, "reserved")]
    public void Decode_other_process_is_refused(byte marker, ErrorReason reason, string word)
    {
        byte[] jpeg = TestPhotos.PatternJpeg();

        CoatScanException refusal = TestPhotos.Refusal(JpegBytes.With(jpeg, JpegBytes.Find(jpeg, 0xC0) + 1, marker));

        Assert.Equal(reason, refusal.Reason);
        Assert.Contains(word, refusal.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Decode_12_bit_is_refused()
    {
        byte[] jpeg = TestPhotos.PatternJpeg();

        CoatScanException refusal = TestPhotos.Refusal(JpegBytes.With(jpeg, JpegBytes.Find(jpeg, 0xC0) + 4, 12));

        Assert.Equal(ErrorReason.PhotoFormatNotAllowed, refusal.Reason);
        Assert.Contains("12 bits", refusal.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Decode_two_frame_headers_are_multi_frame()
    {
        byte[] jpeg = TestPhotos.PatternJpeg();
        int frame = JpegBytes.Find(jpeg, 0xC0);

        byte[] twice = [.. jpeg[..(frame + 19)], .. jpeg[frame..]];

        Assert.Equal(ErrorReason.PhotoMultiFrame, TestPhotos.Refusal(twice).Reason);
    }

    [Fact]
    public void Decode_hierarchical_header_is_multi_frame() =>
        Assert.Equal(
            ErrorReason.PhotoMultiFrame,
            TestPhotos.Refusal(JpegBytes.WithSegment(TestPhotos.PatternJpeg(), 0xDE, [8, 0, 8, 0, 8, 1, 1, 0x11, 0])).Reason);

    [Fact]
    public void Decode_four_components_names_the_color_model()
    {
        CoatScanException ycck = TestPhotos.Refusal(TestPhotos.YcckJpeg);
        byte[] cmyk = JpegBytes.With(TestPhotos.YcckJpeg, JpegBytes.Find(TestPhotos.YcckJpeg, 0xEE) + 15, 0);

        Assert.Equal(ErrorReason.PhotoColorModelNotAllowed, ycck.Reason);
        Assert.Contains("YCCK", ycck.Metadata["color_model"], StringComparison.Ordinal);
        Assert.StartsWith("CMYK", TestPhotos.Refusal(cmyk).Metadata["color_model"], StringComparison.Ordinal);
    }

    [Fact]
    public void Decode_more_scans_than_allowed_is_refused()
    {
        TestPhotos.Decode(TestPhotos.ProgressiveJpeg, new ImagingOptions { MaxJpegScans = 10 }).Dispose();

        CoatScanException refusal = TestPhotos.Refusal(TestPhotos.ProgressiveJpeg, new ImagingOptions { MaxJpegScans = 9 });

        Assert.Equal((ErrorReason.PhotoTooLarge, "number of JPEG scans"), (refusal.Reason, refusal.Metadata["what"]));
    }

    [Fact]
    public void Decode_restart_markers_out_of_order_are_unreadable()
    {
        byte[] jpeg = JpegBytes.GrayBlocks(6, 5, Level, 4);
        int restart = JpegBytes.Find(jpeg, 0xDA) + 10;
        while (jpeg[restart] != 0xFF || jpeg[restart + 1] != 0xD1)
        {
            restart++;
        }

        Assert.Equal(ErrorReason.PhotoUnreadable, TestPhotos.Refusal(JpegBytes.With(jpeg, restart + 1, 0xD2)).Reason);
    }

    [Theory]
    [InlineData(0x00)]
    [InlineData(0xD8)]
    [InlineData(0xD3)]
    public void Decode_marker_out_of_place_is_unreadable(byte marker)
    {
        byte[] jpeg = TestPhotos.PatternJpeg();

        Assert.Equal(ErrorReason.PhotoUnreadable, TestPhotos.Refusal([.. jpeg[..2], 0xFF, marker, .. jpeg[2..]]).Reason);
    }

    [Fact]
    public void Decode_missing_huffman_table_or_size_is_unreadable()
    {
        byte[] jpeg = JpegBytes.GrayBlocks(2, 2, Level, 0);
        int table = JpegBytes.Find(jpeg, 0xC4);
        int frame = JpegBytes.Find(jpeg, 0xC0);

        Assert.Equal(ErrorReason.PhotoUnreadable, TestPhotos.Refusal(JpegBytes.With(jpeg, table + 4, 0x01)).Reason);
        Assert.Equal(
            ErrorReason.PhotoUnreadable, TestPhotos.Refusal(JpegBytes.With(JpegBytes.With(jpeg, frame + 6, 0), frame + 5, 0)).Reason);
        Assert.Equal(ErrorReason.PhotoUnreadable, TestPhotos.Refusal([0xFF, 0xD8, 0xFF, 0xD9]).Reason);
    }

    private static int Level(int block) => 20 + (block * 37 % 200);
}
