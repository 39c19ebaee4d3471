using CoatScan.Imaging;

namespace CoatScan.ImagingTests;

public sealed class PhotoHeaderTests
{
    [Fact]
    public void Megapixels_of_photos_as_they_come_are_those_of_the_decoder()
    {
        var rgb = new byte[300 * 200 * 3];

        Assert.Equal(0.06, PhotoHeader.Megapixels(PhotoEncoder.EncodePng(rgb, 300, 200))!.Value, 9);
        Assert.Equal(0.06, PhotoHeader.Megapixels(PhotoEncoder.EncodeJpeg(rgb, 300, 200, 80))!.Value, 9);
    }

    [Fact]
    public void Megapixels_of_a_jpeg_are_found_behind_comments_and_fill_bytes()
    {
        var jpeg = PhotoEncoder.EncodeJpeg(new byte[64 * 16 * 3], 64, 16, 80);
        byte[] padded = [.. jpeg.AsSpan(0, 2), 0xFF, 0xFE, 0, 4, 0xFF, 0xC0, 0xFF, 0xFF, .. jpeg.AsSpan(2)];

        Assert.Equal(64 * 16 / 1e6, PhotoHeader.Megapixels(padded)!.Value, 9);
    }

    [Fact]
    public void Megapixels_of_a_large_claim_do_not_overflow()
    {
        byte[] png = [.. PngBytes.Signature, .. PngBytes.Header(int.MaxValue, int.MaxValue)];

        Assert.Equal(int.MaxValue * (double)int.MaxValue / 1e6, PhotoHeader.Megapixels(png));
    }

    [Fact]
    public void Megapixels_of_what_says_none_are_unknown_however_it_is_cut()
    {
        var jpeg = PhotoEncoder.EncodeJpeg(new byte[64 * 16 * 3], 64, 16, 80);
        var png = PhotoEncoder.EncodePng(new byte[64 * 16 * 3], 64, 16);

        Assert.Null(PhotoHeader.Megapixels([]));
        Assert.Null(PhotoHeader.Megapixels("GIF89a and more than that"u8));
        Assert.Null(PhotoHeader.Megapixels([0xFF, 0xD8, 0xFF, 0xFE, 0, 0, 1, 2]));
        for (var length = 0; length < 24; length++)
        {
            Assert.Null(PhotoHeader.Megapixels(png.AsSpan(0, length)));
        }

        Assert.All(Enumerable.Range(0, jpeg.Length), length => Assert.True(PhotoHeader.Megapixels(jpeg.AsSpan(0, length)) is null or 64 * 16 / 1e6));
    }
}
