using CoatScan.Imaging;

namespace CoatScan.ImagingTests;

public sealed class PhotoEncoderTests
{
    private static readonly byte[] TwoPixels = [255, 0, 0, 0, 128, 255];

    [Fact]
    public void EncodePng_pixels_starts_with_the_signature_and_repeats()
    {
        byte[] png = PhotoEncoder.EncodePng(TwoPixels, 2, 1);

        Assert.Equal([0x89, 0x50, 0x4E, 0x47, 0x0D, 0x0A, 0x1A, 0x0A], png[..8]);
        Assert.Equal(png, PhotoEncoder.EncodePng(TwoPixels, 2, 1));
    }

    [Fact]
    public void EncodeJpeg_pixels_starts_and_ends_with_the_markers_and_repeats()
    {
        byte[] jpeg = PhotoEncoder.EncodeJpeg(TwoPixels, 2, 1, 90);

        Assert.Equal([0xFF, 0xD8], jpeg[..2]);
        Assert.Equal([0xFF, 0xD9], jpeg[^2..]);
        Assert.Equal(jpeg, PhotoEncoder.EncodeJpeg(TwoPixels, 2, 1, 90));
    }

    [Fact]
    public void Encode_wrong_length_names_the_argument()
    {
        Assert.Throws<ArgumentException>("rgb", () => PhotoEncoder.EncodePng(TwoPixels, 3, 1));
        Assert.Throws<ArgumentException>("rgb", () => PhotoEncoder.EncodeJpeg(TwoPixels, 1, 1, 90));
    }

    [Theory]
    [InlineData(0, 1, 90)]
    [InlineData(65_536, 1, 90)]
    [InlineData(2, 0, 90)]
    [InlineData(2, 1, 0)]
    [InlineData(2, 1, 101)]
    public void EncodeJpeg_out_of_range_is_refused(int width, int height, int quality) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => PhotoEncoder.EncodeJpeg(TwoPixels, width, height, quality));
}
