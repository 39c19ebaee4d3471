using System.Buffers.Binary;
using CoatScan.Findings;
using CoatScan.Imaging;

namespace CoatScan.ImagingTests.Color;

public sealed class ColorSpaceTests
{
    // Linear Display P3 to linear sRGB, as CSS Color 4 gives it; from memory.
    private static readonly double[] P3ToSrgb =
        [1.2249401, -0.2249404, 0, -0.0420569, 1.0420571, 0, -0.0196376, -0.0786361, 1.0982735];

    // Linear Adobe RGB (1998) to linear sRGB, both D65: product of the two published matrices; from memory.
    private static readonly double[] AdobeToSrgb = [1.3983557, -0.3983557, 0, 0, 1, 0, 0, -0.0429290, 1.0429290];

    private static readonly (byte R, byte G, byte B) InGamut = (170, 120, 90);

    [Fact]
    public void Normalize_display_p3_profile_is_converted()
    {
        byte[] profile = IccBytes.Matrix(IccBytes.DisplayP3Colorants, IccBytes.SrgbCurve);

        NormalizedPhoto photo = TestPhotos.Normalize(WithProfile(profile, InGamut));

        Assert.Equal("embedded RGB profile", photo.Color.SourceColorSpace);
        Assert.Equal(0, photo.Color.OutOfGamutFraction);
        AssertLinear(photo, P3ToSrgb, InGamut, SrgbLinear, 0.001);
    }

    [Fact]
    public void Normalize_adobe_rgb_profile_with_a_gamma_of_2_2_is_converted()
    {
        byte[] profile = IccBytes.Matrix(IccBytes.AdobeRgbColorants, IccBytes.Curve(563));

        NormalizedPhoto photo = TestPhotos.Normalize(WithProfile(profile, InGamut));

        AssertLinear(photo, AdobeToSrgb, InGamut, v => Math.Pow(v, 563 / 256.0), 0.001);
    }

    [Fact]
    public void Normalize_color_outside_srgb_is_clipped_and_counted()
    {
        byte[] profile = IccBytes.Matrix(IccBytes.DisplayP3Colorants, IccBytes.SrgbCurve);

        NormalizedPhoto photo = TestPhotos.Normalize(WithProfile(profile, (255, 0, 0)));

        Assert.Equal(1, photo.Color.OutOfGamutFraction);
        Assert.Equal((1f, 0f, 0f), (photo.Planes.Red[0, 0], photo.Planes.Green[0, 0], photo.Planes.Blue[0, 0]));
    }

    [Fact]
    public void Normalize_gray_keeps_its_gray_in_every_space()
    {
        foreach (double[] colorants in new[] { IccBytes.DisplayP3Colorants, IccBytes.AdobeRgbColorants })
        {
            NormalizedPhoto photo = TestPhotos.Normalize(
                WithProfile(IccBytes.Matrix(colorants, IccBytes.SrgbCurve), (128, 128, 128)));

            Assert.InRange(photo.Planes.AStar[0, 0], -0.05, 0.05);
            Assert.InRange(photo.Planes.BStar[0, 0], -0.05, 0.05);
            Assert.InRange(photo.Planes.Green[0, 0], 0.21586 - 0.0005, 0.21586 + 0.0005);
        }
    }

    [Fact]
    public void Decode_srgb_profile_changes_nothing()
    {
        ushort[] samples = [.. Enumerable.Range(0, 1024).Select(i => (ushort)Math.Round(65_535 * SrgbLinear(i / 1023.0)))];

        foreach (byte[] curve in new[] { IccBytes.SrgbCurve, IccBytes.Curve(samples) })
        {
            using DecodedPhoto photo = TestPhotos.Decode(WithProfile(IccBytes.Matrix(IccBytes.SrgbColorants, curve), InGamut));
            Assert.Equal("sRGB", photo.ColorSpaceName);
        }
    }

    [Fact]
    public void Normalize_profile_in_several_jpeg_segments_is_joined()
    {
        byte[] profile = IccBytes.Matrix(IccBytes.DisplayP3Colorants, IccBytes.SrgbCurve);
        byte[] jpeg = PhotoEncoder.EncodeJpeg(TestPhotos.FlatRgb(16, 16, 170, 120, 90), 16, 16, 100);

        NormalizedPhoto photo = TestPhotos.Normalize(JpegBytes.WithProfile(jpeg, profile, 100));

        AssertLinear(photo, P3ToSrgb, InGamut, SrgbLinear, 0.012);
    }

    [Fact]
    public void Decode_profile_with_a_missing_or_a_double_part_is_refused()
    {
        byte[] profile = IccBytes.Matrix(IccBytes.DisplayP3Colorants, IccBytes.SrgbCurve);
        byte[] whole = JpegBytes.WithProfile(TestPhotos.PatternJpeg(), profile, 200);
        int length = 4 + 14 + 200;

        byte[] missing = [.. whole[..2], .. whole[(2 + length)..]];
        byte[] twice = [.. whole[..(2 + length)], .. whole[2..]];

        Assert.Equal(ErrorReason.PhotoColorProfileNotAllowed, TestPhotos.Refusal(missing).Reason);
        Assert.Equal(ErrorReason.PhotoColorProfileNotAllowed, TestPhotos.Refusal(twice).Reason);
    }

    [Theory]
    [InlineData(0, false)]
    [InlineData(1, true)]
    public void Decode_profile_size_around_the_limit(int over, bool isRefused)
    {
        byte[] profile = IccBytes.Matrix(IccBytes.DisplayP3Colorants, IccBytes.SrgbCurve, ("desc", new byte[900]));
        var options = new ImagingOptions { MaxColorProfileBytes = profile.Length - over };
        foreach (byte[] photo in new[] { JpegBytes.WithProfile(TestPhotos.PatternJpeg(), profile), WithProfile(profile, InGamut) })
        {
            if (isRefused)
            {
                Assert.Equal(ErrorReason.PhotoColorProfileNotAllowed, TestPhotos.Refusal(photo, options).Reason);
            }
            else
            {
                TestPhotos.Decode(photo, options).Dispose();
            }
        }
    }

    public static TheoryData<string, byte[]> RefusedProfiles => new()
    {
        { "damaged", new byte[200] },
        { "lookup table", IccBytes.Matrix(IccBytes.DisplayP3Colorants, IccBytes.SrgbCurve, ("A2B0", new byte[8])) },
        { "lookup table", IccBytes.Profile("mntr", "RGB ", "Lab ", [("A2B0", new byte[32])]) },
        { "neither RGB nor gray", IccBytes.Profile("mntr", "Lab ", "XYZ ", []) },
        { "display", IccBytes.Profile("prtr", "RGB ", "XYZ ", []) },
        { "for gray photos", IccBytes.Profile("mntr", "GRAY", "XYZ ", [("kTRC", IccBytes.Curve(563))]) },
        { "primary is missing", IccBytes.Profile("mntr", "RGB ", "XYZ ", []) },
        { "tone curve is missing", IccBytes.Matrix(IccBytes.DisplayP3Colorants, new byte[16]) },
        { "tone curve falls", IccBytes.Matrix(IccBytes.DisplayP3Colorants, IccBytes.Curve(65_535, 0)) },
        { "from black to white", IccBytes.Matrix(IccBytes.DisplayP3Colorants, IccBytes.Curve(0, 30_000)) },
        { "do not add up", IccBytes.Matrix([0.3, 0.3, 0.3, 0.3, 0.3, 0.3, 0.3, 0.3, 0.3], IccBytes.SrgbCurve) },
    };

    [Theory]
    [MemberData(nameof(RefusedProfiles))]
    public void Decode_profile_that_cannot_be_converted_says_why(string why, byte[] profile)
    {
        CoatScanException refusal = TestPhotos.Refusal(WithProfile(profile, InGamut));

        Assert.Equal(ErrorReason.PhotoColorProfileNotAllowed, refusal.Reason);
        Assert.Contains(why, refusal.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Normalize_gray_profile_on_a_gray_photo_is_converted()
    {
        byte[] profile = IccBytes.Profile("mntr", "GRAY", "XYZ ", [("kTRC", IccBytes.Curve(256))]);

        NormalizedPhoto photo = TestPhotos.Normalize(JpegBytes.WithProfile(JpegBytes.GrayBlocks(2, 2, _ => 51, 0), profile));

        Assert.Equal(0.2, photo.Planes.Red[3, 3], 0.0001);
    }

    [Theory]
    [InlineData(false, 45_455)]
    [InlineData(true, 100_000)]
    public void Decode_png_srgb_chunk_or_its_gamma_is_srgb(bool hasSrgbChunk, int gamma)
    {
        byte[] gama = PngBytes.Chunk("gAMA"u8, BigEndian(gamma));
        byte[] png = hasSrgbChunk
            ? PngBytes.Flat(4, 4, InGamut, PngBytes.Chunk("sRGB"u8, [0]), gama)
            : PngBytes.Flat(4, 4, InGamut, gama);

        using DecodedPhoto photo = TestPhotos.Decode(png);

        Assert.Equal("sRGB", photo.ColorSpaceName);
    }

    [Fact]
    public void Normalize_png_gamma_and_primaries_are_converted()
    {
        byte[] linear = PngBytes.Flat(4, 4, (51, 102, 204), PngBytes.Chunk("gAMA"u8, BigEndian(100_000)));
        byte[] p3 = PngBytes.Flat(
            4,
            4,
            InGamut,
            PngBytes.Chunk("cHRM"u8, BigEndian(31_270, 32_900, 68_000, 32_000, 26_500, 69_000, 15_000, 6_000)),
            PngBytes.Chunk("gAMA"u8, BigEndian(45_455)));

        NormalizedPhoto first = TestPhotos.Normalize(linear);

        Assert.Equal(0.2, first.Planes.Red[0, 0], 0.0001);
        Assert.Equal(0.8, first.Planes.Blue[0, 0], 0.0001);
        AssertLinear(TestPhotos.Normalize(p3), P3ToSrgb, InGamut, SrgbLinear, 0.001);
    }

    [Fact]
    public void Normalize_png_code_points_win_over_a_profile()
    {
        byte[] adobe = IccBytes.Matrix(IccBytes.AdobeRgbColorants, IccBytes.Curve(563));
        byte[] png = PngBytes.WithChunks(WithProfile(adobe, InGamut), PngBytes.Chunk("cICP"u8, [12, 13, 0, 1]));

        NormalizedPhoto photo = TestPhotos.Normalize(png);

        Assert.Equal("Display P3", photo.Color.SourceColorSpace);
        AssertLinear(photo, P3ToSrgb, InGamut, SrgbLinear, 0.001);
    }

    [Fact]
    public void Decode_png_color_that_cannot_be_converted_is_refused()
    {
        byte[][] chunks =
        [
            PngBytes.Chunk("cICP"u8, [9, 16, 0, 1]),
            PngBytes.Chunk("gAMA"u8, BigEndian(0)),
            PngBytes.Chunk("gAMA"u8, [1]),
            PngBytes.Chunk("cHRM"u8, BigEndian(31_270, 32_900, 0, 0, 0, 0, 0, 0)),
            PngBytes.Chunk("cHRM"u8, [1]),
            PngBytes.Chunk("iCCP"u8, [(byte)'n', 0, 0, 1, 2, 3]),
            PngBytes.Chunk("iCCP"u8, [1]),
        ];

        foreach (byte[] chunk in chunks)
        {
            Assert.Equal(
                ErrorReason.PhotoColorProfileNotAllowed, TestPhotos.Refusal(PngBytes.Flat(4, 4, InGamut, chunk)).Reason);
        }
    }

    [Fact]
    public void Normalize_camera_that_declares_adobe_rgb_without_a_profile_is_converted()
    {
        var exif = new ExifBytes(bigEndian: false);
        uint interoperability = exif.Directory((0x0001, ExifBytes.Ascii("R03")));
        uint details = exif.Directory((0xA001, ExifBytes.Short(0xFFFF)), (0xA005, ExifBytes.Pointer(interoperability)));
        byte[] tiff = exif.Finish(exif.Directory((0x8769, ExifBytes.Pointer(details))));

        NormalizedPhoto photo = TestPhotos.Normalize(PngBytes.Flat(4, 4, InGamut, PngBytes.Chunk("eXIf"u8, tiff)));

        Assert.Equal("Adobe RGB (1998)", photo.Color.SourceColorSpace);
        AssertLinear(photo, AdobeToSrgb, InGamut, v => Math.Pow(v, 563 / 256.0), 0.001);
    }

    private static byte[] WithProfile(byte[] profile, (byte R, byte G, byte B) color) =>
        PngBytes.Flat(4, 4, color, PngBytes.Chunk("iCCP"u8, [(byte)'p', 0, 0, .. PngBytes.Deflate(profile)]));

    private static byte[] BigEndian(params int[] values)
    {
        var bytes = new byte[4 * values.Length];
        for (int i = 0; i < values.Length; i++)
        {
            BinaryPrimitives.WriteInt32BigEndian(bytes.AsSpan(4 * i), values[i]);
        }

        return bytes;
    }

    private static double SrgbLinear(double v) => v <= 0.04045 ? v / 12.92 : Math.Pow((v + 0.055) / 1.055, 2.4);

    private static void AssertLinear(
        NormalizedPhoto photo, double[] matrix, (byte R, byte G, byte B) stored, Func<double, double> curve, double tolerance)
    {
        double r = curve(stored.R / 255.0);
        double g = curve(stored.G / 255.0);
        double b = curve(stored.B / 255.0);
        Assert.Equal((matrix[0] * r) + (matrix[1] * g) + (matrix[2] * b), photo.Planes.Red[1, 1], tolerance);
        Assert.Equal((matrix[3] * r) + (matrix[4] * g) + (matrix[5] * b), photo.Planes.Green[1, 1], tolerance);
        Assert.Equal((matrix[6] * r) + (matrix[7] * g) + (matrix[8] * b), photo.Planes.Blue[1, 1], tolerance);
    }
}
