using System.Text;
using CoatScan.Findings;
using CoatScan.Imaging;

namespace CoatScan.ImagingTests;

public sealed class GuardedPhotoDecoderTests
{
    [Fact]
    public void Decode_jpeg_and_png_give_the_pixels()
    {
        byte[] rgb = TestPhotos.PatternRgb(48, 40);

        using DecodedPhoto png = TestPhotos.Decode(TestPhotos.PatternPng());
        using DecodedPhoto jpeg = TestPhotos.Decode(TestPhotos.PatternJpeg(quality: 100));

        Assert.Equal((48, 40, "sRGB", null), (png.WidthPx, png.HeightPx, png.ColorSpaceName, png.CaptureTime));
        Assert.Equal(rgb[(3 * 48 * 7)..(3 * 48 * 8)], png.StoredRow(7).ToArray());
        Assert.InRange(Math.Abs(rgb[(3 * 48 * 7) + 1] - jpeg.StoredRow(7)[1]), 0, 12);
    }

    [Fact]
    public void Decode_empty_is_unreadable()
    {
        CoatScanException refusal = TestPhotos.Refusal([]);

        Assert.Equal(ErrorReason.PhotoUnreadable, refusal.Reason);
        Assert.Contains("empty", refusal.Message, StringComparison.Ordinal);
        Assert.Equal("content", refusal.Field);
    }

    [Theory]
    [InlineData("GIF89a", "image/gif")]
    [InlineData("RIFF\0\0\0\0WEBPVP8 ", "image/webp")]
    [InlineData("BM\u0001\0\0\0\0\0\0\0\0\0\0\0", "image/bmp")]
    [InlineData("II*\0\u0008\0\0\0", "image/tiff")]
    [InlineData("MM\0*\0\0\0\u0008", "image/tiff")]
    [InlineData("\0\0\0\u0018ftypheic\0\0\0\0", "image/heic")]
    [InlineData("\0\0\0\u0018ftypmif1\0\0\0\0", "image/heic")]
    [InlineData("\0\0\0\u0018ftypavif\0\0\0\0", "image/avif")]
    [InlineData("\0\0\0\u0018ftypisom\0\0\0\0", "video/mp4")]
    [InlineData("%PDF-1.7\n", "application/pdf")]
    [InlineData("PK\u0003\u0004\0\0", "application/zip")]
    [InlineData("\0\0\0\u000cJXL \r\n", "image/jxl")]
    [InlineData("\0\0\0\u000cjP  \r\n", "image/jp2")]
    [InlineData("<html><body>not found</body></html>\r\n", "text/plain")]
    [InlineData("\u0001\u0002\u0003\u0004", "application/octet-stream")]
    public void Decode_other_format_names_it(string start, string mediaType)
    {
        CoatScanException refusal = TestPhotos.Refusal(Encoding.Latin1.GetBytes(start));

        Assert.Equal(ErrorReason.PhotoFormatNotAllowed, refusal.Reason);
        Assert.Equal(mediaType, refusal.Metadata["media_type"]);
        Assert.Equal("image/jpeg, image/png", refusal.Metadata["allowed"]);
    }

    [Fact]
    public void Decode_png_sent_in_text_mode_says_so()
    {
        CoatScanException refusal = TestPhotos.Refusal([0x89, 0x50, 0x4E, 0x47, 0x0A, 0x1A, 0x0A, 0, 0]);

        Assert.Equal(ErrorReason.PhotoUnreadable, refusal.Reason);
        Assert.Contains("text mode", refusal.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(-1, false)]
    [InlineData(0, false)]
    [InlineData(1, true)]
    public void Decode_bytes_around_the_limit(int over, bool isRefused)
    {
        byte[] png = TestPhotos.PatternPng();
        Assert.True(png.Length > 1100);

        AssertTooLarge(png, new ImagingOptions { MaxPhotoBytes = png.Length - over }, isRefused, "file size");
    }

    [Theory]
    [InlineData(99, 80, false)]
    [InlineData(100, 80, false)]
    [InlineData(101, 80, true)]
    [InlineData(80, 101, true)]
    public void Decode_side_around_the_limit(int width, int height, bool isRefused) =>
        AssertTooLarge(TestPhotos.PatternPng(width, height), new ImagingOptions { MaxSidePx = 100 }, isRefused, "longer side");

    [Theory]
    [InlineData(125, 80, false)]
    [InlineData(126, 80, true)]
    [InlineData(124, 80, false)]
    public void Decode_pixels_around_the_limit(int width, int height, bool isRefused) =>
        AssertTooLarge(TestPhotos.PatternJpeg(width, height), new ImagingOptions { MaxMegapixels = 0.01 }, isRefused, "pixel count");

    [Theory]
    [InlineData(79, 10, false)]
    [InlineData(80, 10, false)]
    [InlineData(81, 10, true)]
    [InlineData(10, 81, true)]
    public void Decode_aspect_around_the_limit(int width, int height, bool isRefused) =>
        AssertTooLarge(TestPhotos.PatternPng(width, height), new ImagingOptions(), isRefused, "ratio of the sides");

    [Fact]
    public void Decode_small_file_that_claims_gigabytes_is_refused_at_once()
    {
        byte[] tall = [.. PngBytes.Signature, .. PngBytes.Header(1, 500_000_000), .. PngBytes.Data([0]), .. PngBytes.End];
        byte[] square = [.. PngBytes.Signature, .. PngBytes.Header(20_000, 20_000), .. PngBytes.Data(new byte[4096]), .. PngBytes.End];
        byte[] jpeg = TestPhotos.PatternJpeg();
        int frame = JpegBytes.Find(jpeg, 0xC0);
        jpeg.AsSpan(frame + 5, 4).Fill(0xEA);

        // The first refusals load code.
        foreach (byte[] bytes in new[] { tall, square, jpeg })
        {
            Assert.Equal(ErrorReason.PhotoTooLarge, TestPhotos.Refusal(bytes).Reason);
        }

        long before = GC.GetAllocatedBytesForCurrentThread();
        Assert.Equal("longer side", TestPhotos.Refusal(tall).Metadata["what"]);
        Assert.Equal("20000", TestPhotos.Refusal(square).Metadata["value"]);
        Assert.Equal("12000", TestPhotos.Refusal(jpeg).Metadata["limit"]);

        // Nothing of the size that the headers promise is set aside.
        Assert.InRange(GC.GetAllocatedBytesForCurrentThread() - before, 0, 1_000_000);
    }

    [Fact]
    public void Decode_canceled_stops()
    {
        var decoder = new GuardedPhotoDecoder(new ImagingOptions());

        Assert.ThrowsAny<OperationCanceledException>(() => decoder.Decode(TestPhotos.PatternPng(), new CancellationToken(true)));
    }

    [Fact]
    public void Decode_slice_of_a_larger_buffer_is_taken()
    {
        byte[] png = TestPhotos.PatternPng();
        ReadOnlyMemory<byte> slice = new byte[] { 1, 2, 3 }.Concat(png).Concat(new byte[] { 4 }).ToArray().AsMemory(3, png.Length);

        using DecodedPhoto photo = new GuardedPhotoDecoder(new ImagingOptions()).Decode(slice, TestContext.Current.CancellationToken);

        Assert.Equal(48, photo.WidthPx);
    }

    [Fact]
    public void FromRgb_out_of_range_is_refused()
    {
        Assert.Throws<ArgumentException>("rgb", () => DecodedPhoto.FromRgb(new byte[3], 2, 1));
        Assert.Throws<ArgumentOutOfRangeException>("orientation", () => DecodedPhoto.FromRgb(new byte[3], 1, 1, 9));
    }

    private static void AssertTooLarge(byte[] photo, ImagingOptions options, bool isRefused, string what)
    {
        if (!isRefused)
        {
            TestPhotos.Decode(photo, options).Dispose();
            return;
        }

        CoatScanException refusal = TestPhotos.Refusal(photo, options);
        Assert.Equal(ErrorReason.PhotoTooLarge, refusal.Reason);
        Assert.Equal(what, refusal.Metadata["what"]);
        Assert.Contains(refusal.Metadata["value"], refusal.Message, StringComparison.Ordinal);
        Assert.Contains(refusal.Metadata["limit"], refusal.Message, StringComparison.Ordinal);
    }
}
