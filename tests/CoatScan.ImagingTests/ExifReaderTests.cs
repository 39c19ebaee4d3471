using System.Text;
using CoatScan.Imaging;

namespace CoatScan.ImagingTests;

public sealed class ExifReaderTests
{
    [Theory]
    [InlineData("2026:05:04 13:14:15", null, "2026-05-04T13:14:15")]
    [InlineData("2026:05:04 13:14:15", "+02:00", "2026-05-04T13:14:15+02:00")]
    [InlineData("2026:05:04 13:14:15", "-09:30", "2026-05-04T13:14:15-09:30")]
    [InlineData("2026:05:04 13:14:15", "+15:00", "2026-05-04T13:14:15")]
    [InlineData("2026:05:04 13:14:15", "02:00 ", "2026-05-04T13:14:15")]
    [InlineData("2026:13:04 13:14:15", null, null)]
    [InlineData("    :  :     :  :  ", null, null)]
    [InlineData("2026-05-04 13:14:15", null, null)]
    [InlineData("0000:00:00 00:00:00", null, null)]
    public void Decode_capture_time_becomes_iso_8601_or_nothing(string time, string? offset, string? expected)
    {
        foreach (bool bigEndian in new[] { false, true })
        {
            byte[] photo = JpegBytes.WithExif(TestPhotos.PatternJpeg(), Exif(bigEndian, time, offset));

            Assert.Equal(expected, TestPhotos.Normalize(photo).Report.CaptureTime);
        }
    }

    [Theory]
    [InlineData(0, 1)]
    [InlineData(6, 6)]
    [InlineData(8, 8)]
    [InlineData(9, 1)]
    [InlineData(65_535, 1)]
    public void Decode_orientation_outside_its_range_is_ignored(int stored, int expected)
    {
        using DecodedPhoto photo = TestPhotos.Decode(
            JpegBytes.WithExif(TestPhotos.PatternJpeg(), ExifBytes.Orientation(stored, bigEndian: false)));

        Assert.Equal(expected, photo.Orientation);
        Assert.Equal(expected >= 5 ? (40, 48) : (48, 40), (photo.WidthPx, photo.HeightPx));
    }

    [Fact]
    public void Decode_damaged_exif_is_the_same_as_none()
    {
        byte[] exif = Exif(true, "2026:05:04 13:14:15", "+02:00");
        for (int length = 0; length < exif.Length; length++)
        {
            using DecodedPhoto cut = TestPhotos.Decode(JpegBytes.WithExif(TestPhotos.PatternJpeg(), exif[..length]));
            Assert.InRange(cut.Orientation, 1, 8);
        }

        byte[] self = new ExifBytes(true).Finish(8);
        using DecodedPhoto photo = TestPhotos.Decode(JpegBytes.WithExif(TestPhotos.PatternJpeg(), self));
        Assert.Equal((1, null), (photo.Orientation, photo.CaptureTime));
    }

    [Fact]
    public void Normalize_place_owner_and_serial_number_survive_nowhere()
    {
        const string owner = "Invented Owner";
        const string serial = "SN-0815-4711";
        const string place = "48,8,0,N-invented";
        var exif = new ExifBytes(bigEndian: false);
        uint gps = exif.Directory((0x0001, ExifBytes.Ascii("N")), (0x001C, ExifBytes.Ascii(place)));
        uint details = exif.Directory(
            (0x9003, ExifBytes.Ascii("2026:05:04 13:14:15")),
            (0x927C, ExifBytes.Ascii("maker note of " + owner)),
            (0xA430, ExifBytes.Ascii(owner)),
            (0xA431, ExifBytes.Ascii(serial)));
        uint main = exif.Directory(
            (0x0112, ExifBytes.Short(3)),
            (0x013B, ExifBytes.Ascii(owner)),
            (0x8769, ExifBytes.Pointer(details)),
            (0x8825, ExifBytes.Pointer(gps)));
        byte[] photo = JpegBytes.WithExif(TestPhotos.PatternJpeg(), exif.Finish(main));
        Assert.Contains(owner, Encoding.Latin1.GetString(photo), StringComparison.Ordinal);

        NormalizedPhoto normalized = TestPhotos.Normalize(photo);

        string everything = System.Text.Json.JsonSerializer.Serialize(normalized.Report) + normalized.Color;
        Assert.Contains("2026-05-04T13:14:15", everything, StringComparison.Ordinal);
        foreach (string secret in new[] { owner, "Owner", serial, "0815", place, "48,8", "maker" })
        {
            Assert.DoesNotContain(secret, everything, StringComparison.Ordinal);
        }
    }

    private static byte[] Exif(bool bigEndian, string time, string? offset)
    {
        var exif = new ExifBytes(bigEndian);
        uint details = offset is null
            ? exif.Directory((0x9003, ExifBytes.Ascii(time)))
            : exif.Directory((0x9003, ExifBytes.Ascii(time)), (0x9011, ExifBytes.Ascii(offset)));
        return exif.Finish(exif.Directory((0x8769, ExifBytes.Pointer(details))));
    }
}
