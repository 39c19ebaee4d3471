using System.Security.Cryptography;
using CoatScan.Findings;
using CoatScan.Imaging;
using CoatScan.Metrics.Color;

namespace CoatScan.ImagingTests;

public sealed class PhotoNormalizerTests
{
    // What each EXIF orientation shows of the stored rows 1 2 3 / 4 5 6; computed with another program and checked against the
    // libjpeg manual page jpegexiforient.
    [Theory]
    [InlineData(1, 3, "123456")]
    [InlineData(2, 3, "321654")]
    [InlineData(3, 3, "654321")]
    [InlineData(4, 3, "456123")]
    [InlineData(5, 2, "142536")]
    [InlineData(6, 2, "415263")]
    [InlineData(7, 2, "635241")]
    [InlineData(8, 2, "362514")]
    public void Normalize_orientation_turns_planes_and_size(int orientation, int width, string shown)
    {
        byte[] rows = [0, 1, 1, 1, 2, 2, 2, 3, 3, 3, 0, 4, 4, 4, 5, 5, 5, 6, 6, 6];
        byte[] png =
        [
            .. PngBytes.Signature, .. PngBytes.Header(3, 2), .. PngBytes.Chunk("eXIf"u8, ExifBytes.Orientation(orientation)),
            .. PngBytes.Data(rows), .. PngBytes.End,
        ];

        NormalizedPhoto photo = TestPhotos.Normalize(png);

        string seen = string.Concat(photo.Planes.Red.Values.Select(v => SrgbTransfer.ToByte(v)));
        Assert.Equal((width, 6 / width, shown), (photo.Planes.Width, photo.Planes.Height, seen));
        Assert.Equal((width, 6 / width), (photo.Report.WidthPx, photo.Report.HeightPx));
    }

    [Fact]
    public void Normalize_planes_are_linear_light_and_lab()
    {
        // 8-bit checks of IEC 61966-2-1: 128 is 0.21586050, 188 is 0.50288646.
        NormalizedPhoto photo = TestPhotos.Normalize(PngBytes.Flat(4, 4, (128, 188, 255)));

        Assert.Equal(0.21586050, photo.Planes.Red[2, 2], 1e-6);
        Assert.Equal(0.50288646, photo.Planes.Green[2, 2], 1e-6);
        Assert.Equal(1, photo.Planes.Blue[2, 2], 1e-6);
        LabColor expected = CieLab.FromSrgb(128, 188, 255);
        Assert.Equal(expected.L, photo.Planes.Lightness[2, 2], 0.01);
        Assert.Equal(expected.A, photo.Planes.AStar[2, 2], 0.01);
        Assert.Equal(expected.B, photo.Planes.BStar[2, 2], 0.01);
    }

    [Fact]
    public void Normalize_digest_is_of_the_received_bytes()
    {
        byte[] jpeg = [.. TestPhotos.PatternJpeg(), 1, 2, 3];

        Assert.Equal(Convert.ToHexStringLower(SHA256.HashData(jpeg)), TestPhotos.Normalize(jpeg).Report.Sha256);
    }

    [Fact]
    public void Normalize_same_bytes_give_the_same_planes()
    {
        byte[] jpeg = TestPhotos.PatternJpeg(300, 200);
        var options = new ImagingOptions { WorkingMegapixels = 0.02 };

        Assert.Equal(
            TestPhotos.Normalize(jpeg, options: options).Planes.Lightness.Values,
            TestPhotos.Normalize(jpeg, options: options).Planes.Lightness.Values);
    }

    [Fact]
    public void Normalize_scale_follows_the_reduction()
    {
        byte[] png = TestPhotos.PatternPng(400, 300);

        NormalizedPhoto reduced = TestPhotos.Normalize(png, 0.25, new ImagingOptions { WorkingMegapixels = 0.03 });
        NormalizedPhoto full = TestPhotos.Normalize(png, 0.25);

        Assert.Equal((200, 150, 2.0, 0.5), (reduced.Planes.Width, reduced.Planes.Height, reduced.Planes.OriginalPxPerPx, reduced.Planes.MmPerPx));
        Assert.Equal((400, 300, 1.0, 0.25), (full.Planes.Width, full.Planes.Height, full.Planes.OriginalPxPerPx, full.Planes.MmPerPx));
        Assert.Equal(new PhotoScale(ScaleSource.Caller, 0.25) { Uncertainty = 0.125 }, reduced.Report.Scale);
    }

    [Fact]
    public void Normalize_without_a_scale_says_so()
    {
        NormalizedPhoto photo = TestPhotos.Normalize(TestPhotos.PatternPng());

        Assert.Null(photo.Planes.MmPerPx);
        Assert.Equal(PhotoScale.Unknown, photo.Report.Scale);
        Assert.Contains(photo.Report.Issues, issue => issue.Code == PhotoIssueCode.NoScale);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(-1)]
    [InlineData(100.1)]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    public void Normalize_scale_out_of_range_names_field_and_limit(double mmPerPx)
    {
        var refusal = Assert.Throws<CoatScanException>(() => TestPhotos.Normalize(TestPhotos.PatternPng(), mmPerPx));

        Assert.Equal((ErrorReason.ValueOutOfRange, "mm_per_px"), (refusal.Reason, refusal.Field));
        Assert.Equal("100", refusal.Metadata["maximum"]);
    }

    [Fact]
    public void Normalize_clipped_is_white_in_all_channels()
    {
        byte[] row = [254, 254, 254, 255, 255, 255, 253, 254, 254, 255, 255, 253, 0, 0, 0];
        byte[] png = [.. PngBytes.Signature, .. PngBytes.Header(5, 1), .. PngBytes.Data([0, .. row]), .. PngBytes.End];

        Assert.Equal([true, true, false, false, false], TestPhotos.Normalize(png).Planes.Clipped);
    }

    [Fact]
    public void Constructor_option_out_of_range_is_refused()
    {
        ImagingOptions[] wrong =
        [
            new() { MaxPhotoBytes = 1023 }, new() { MaxMegapixels = 80.1 }, new() { MaxSidePx = 63 }, new() { MaxAspect = 0.9 },
            new() { MaxColorProfileBytes = 127 }, new() { MaxJpegScans = 0 }, new() { WorkingMegapixels = double.NaN },
        ];
        foreach (ImagingOptions options in wrong)
        {
            Assert.Throws<ArgumentOutOfRangeException>(() => new GuardedPhotoDecoder(options));
            Assert.Throws<ArgumentOutOfRangeException>(
                () => new PhotoNormalizer(new GuardedPhotoDecoder(new ImagingOptions()), options));
        }
    }
}
