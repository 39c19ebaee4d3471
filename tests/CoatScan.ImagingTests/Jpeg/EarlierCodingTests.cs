using CoatScan.Findings;
using CoatScan.Imaging;
using CoatScan.Imaging.Jpeg;

namespace CoatScan.ImagingTests.Jpeg;

/// <summary>A photo that was compressed coarsely once and stored finely since.</summary>
public sealed class EarlierCodingTests
{
    private const int SidePx = 480;
    private const double WavelengthPx = 6;

    // What the pixels say is what the table of the first file said.
    [Theory]
    [InlineData(10)]
    [InlineData(20)]
    [InlineData(30)]
    public void LostAmplitude_is_that_of_the_file_that_is_gone(int quality)
    {
        byte[] first = PhotoEncoder.EncodeJpeg(Texture(), SidePx, SidePx, quality);
        using DecodedPhoto photo = TestPhotos.Decode(first);
        double expected = photo.Quantizer!.LostAmplitudeAt(WavelengthPx);

        foreach (byte[] second in new[] { AsPng(photo), PhotoEncoder.EncodeJpeg(Pixels(photo), SidePx, SidePx, 95) })
        {
            using DecodedPhoto again = TestPhotos.Decode(second);
            Assert.Equal(expected, EarlierCoding.LostAmplitude(again, WavelengthPx), 0.03 * expected);
        }
    }

    // Cropped by any number of pixels since, or turned by a quarter, which puts the blocks' grid elsewhere too.
    [Theory]
    [InlineData(10, 3, 5, false)]
    [InlineData(20, 7, 1, false)]
    [InlineData(30, 4, 0, false)]
    [InlineData(10, 3, 5, true)]
    [InlineData(20, 7, 1, true)]
    [InlineData(30, 4, 0, true)]
    public void LostAmplitude_of_a_photo_cropped_since_is_that_of_the_file_that_is_gone(int quality, int left, int top, bool isJpeg)
    {
        using DecodedPhoto photo = TestPhotos.Decode(PhotoEncoder.EncodeJpeg(Texture(), SidePx, SidePx, quality));
        double expected = photo.Quantizer!.LostAmplitudeAt(WavelengthPx);
        var (width, height) = (SidePx - left - 2, SidePx - top - 6);
        byte[] pixels = Pixels(photo);
        byte[] part = [.. Enumerable.Range(top, height).SelectMany(y => pixels.Skip(3 * ((y * SidePx) + left)).Take(3 * width))];

        using DecodedPhoto cropped = TestPhotos.Decode(
            isJpeg ? PhotoEncoder.EncodeJpeg(part, width, height, 95) : PhotoEncoder.EncodePng(part, width, height));

        Assert.Equal(expected, EarlierCoding.LostAmplitude(cropped, WavelengthPx), 0.03 * expected);
    }

    // Where no block is left whole nothing is stated, rather than something wrong.
    [Fact]
    public void LostAmplitude_of_a_photo_resized_since_is_not_assessable()
    {
        using DecodedPhoto photo = TestPhotos.Decode(PhotoEncoder.EncodeJpeg(Texture(), SidePx, SidePx, 20));
        byte[] pixels = Pixels(photo);
        const int Side = SidePx * 3 / 4;
        var smaller = new byte[3 * Side * Side];
        for (int i = 0; i < smaller.Length; i++)
        {
            var (x, y, channel) = (i / 3 % Side, i / 3 / Side, i % 3);
            smaller[i] = pixels[(3 * ((y * 4 / 3 * SidePx) + (x * 4 / 3))) + channel];
        }

        using DecodedPhoto resized = TestPhotos.Decode(PhotoEncoder.EncodePng(smaller, Side, Side));

        Assert.Equal(0, EarlierCoding.LostAmplitude(resized, WavelengthPx));
    }

    [Fact]
    public void LostAmplitude_of_photos_that_were_never_coded_coarsely_is_none()
    {
        byte[][] photos =
        [
            PhotoEncoder.EncodePng(Texture(), SidePx, SidePx),
            PhotoEncoder.EncodeJpeg(Texture(), SidePx, SidePx, 90),
            TestPhotos.PatternPng(SidePx, SidePx),
            PhotoEncoder.EncodePng(TestPhotos.FlatRgb(SidePx, SidePx, 90, 90, 90), SidePx, SidePx),
            PhotoEncoder.EncodePng(Lattice(8), SidePx, SidePx),
            PhotoEncoder.EncodePng(Lattice(4), SidePx, SidePx),
            PhotoEncoder.EncodePng(Lattice(5), SidePx, SidePx),
        ];

        Assert.All(photos, bytes =>
        {
            using DecodedPhoto photo = TestPhotos.Decode(bytes);
            Assert.Equal(0, EarlierCoding.LostAmplitude(photo, WavelengthPx));
        });
    }

    [Fact]
    public void Normalize_sweep_of_first_compression_reports_once_and_for_all()
    {
        int[] qualities = [95, 75, 60, 50, 40, 30, 20, 15, 10, 5];

        var issues = qualities.Select(quality =>
        {
            using DecodedPhoto photo = TestPhotos.Decode(PhotoEncoder.EncodeJpeg(Texture(), SidePx, SidePx, quality));
            return TestPhotos.Normalize(AsPng(photo)).Report.Issues.FirstOrDefault(issue => issue.Code == PhotoIssueCode.Compressed);
        }).ToList();

        bool[] isReported = [.. issues.Select(issue => issue is not null)];
        Assert.All(Enumerable.Range(1, isReported.Length - 1), i => Assert.True(isReported[i] || !isReported[i - 1]));
        Assert.False(isReported[3]);
        Assert.True(isReported[7]);
        Assert.StartsWith("An earlier compression, still seen in the pixels,", issues[^1]!.Detail, StringComparison.Ordinal);
    }

    // Waves of many directions and lengths, with noise: every coefficient occurs.
    private static byte[] Texture()
    {
        var random = new Random(12);
        var waves = Enumerable.Range(0, 30)
            .Select(_ => (X: 2.4 * (random.NextDouble() - 0.5), Y: 2.4 * (random.NextDouble() - 0.5), At: 6.3 * random.NextDouble())).ToArray();
        var rgb = new byte[3 * SidePx * SidePx];
        for (int i = 0; i < SidePx * SidePx; i++)
        {
            var (x, y) = (i % SidePx, i / SidePx);
            double value = 128 + (7 * waves.Sum(wave => Math.Sin((wave.X * x) + (wave.Y * y) + wave.At))) + (3 * (random.NextDouble() - 0.5));
            rgb.AsSpan(3 * i, 3).Fill((byte)Math.Clamp(value, 0, 255));
        }

        return rgb;
    }

    private static byte[] Lattice(int periodPx)
    {
        var rgb = new byte[3 * SidePx * SidePx];
        for (int i = 0; i < SidePx * SidePx; i++)
        {
            double phase = 2 * Math.PI / periodPx;
            rgb.AsSpan(3 * i, 3).Fill(
                (byte)Math.Round(128 + (50 * Math.Cos(phase * (i % SidePx % periodPx))) + (50 * Math.Cos(phase * (i / SidePx % periodPx)))));
        }

        return rgb;
    }

    private static byte[] AsPng(DecodedPhoto photo) => PhotoEncoder.EncodePng(Pixels(photo), SidePx, SidePx);

    private static byte[] Pixels(DecodedPhoto photo)
    {
        var rgb = new byte[3 * SidePx * SidePx];
        for (int y = 0; y < SidePx; y++)
        {
            photo.StoredRow(y).CopyTo(rgb.AsSpan(3 * SidePx * y));
        }

        return rgb;
    }
}
