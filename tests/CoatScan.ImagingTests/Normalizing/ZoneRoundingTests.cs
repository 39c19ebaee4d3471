using CoatScan.Findings;
using CoatScan.Imaging;
using CoatScan.Imaging.Jpeg;
using CoatScan.Imaging.Normalizing;
using CoatScan.Metrics.Color;
using CoatScan.Metrics.Zones;
using SixLabors.ImageSharp;
using SixLabors.ImageSharp.PixelFormats;

namespace CoatScan.ImagingTests.Normalizing;

public sealed class ZoneRoundingTests
{
    private const int Side = 96;

    private static readonly PhotoZone Whole = new(0, 0, 0, Side, Side);

    // Truth: the mean that went into the file. Behind noise of a code the file knows it better than a decoder's whole codes.
    [Theory]
    [InlineData(90)]
    [InlineData(95)]
    public void Of_noisy_flat_photo_gives_back_what_the_decoder_rounded_away(int quality)
    {
        var (before, after) = (0.0, 0.0);
        for (int seed = 0; seed < 20; seed++)
        {
            var random = new Random(seed);
            double[] level = [20.0 + (150 * random.NextDouble()), 20.0 + (150 * random.NextDouble()), 20.0 + (150 * random.NextDouble())];
            byte[] rgb = Noisy(level, random);
            using DecodedPhoto photo = TestPhotos.Decode(PhotoEncoder.EncodeJpeg(rgb, Side, Side, quality));

            StoredColor stored = ZoneRounding.Of(photo, Whole);
            double[] truth = Light(rgb);
            double[] decoded = Light(Pixels(photo));
            double[] given = [stored.Rounded.Red, stored.Rounded.Green, stored.Rounded.Blue];
            for (int channel = 0; channel < 3; channel++)
            {
                before += Math.Pow((decoded[channel] - truth[channel]) / truth[channel], 2);
                after += Math.Pow((decoded[channel] + given[channel] - truth[channel]) / truth[channel], 2);
            }
        }

        Assert.InRange(Math.Sqrt(after), 0, 0.5 * Math.Sqrt(before));
    }

    [Fact]
    public void Of_png_lost_nothing()
    {
        using DecodedPhoto photo = TestPhotos.Decode(TestPhotos.PatternPng());

        Assert.Same(StoredColor.Exact, ZoneRounding.Of(photo, new(0, 0, 0, 40, 40)));
    }

    [Fact]
    public void Of_jpeg_of_red_green_and_blue_is_unknown()
    {
        byte[] ycc = PhotoEncoder.EncodeJpeg(TestPhotos.FlatRgb(32, 32, 200, 30, 40), 32, 32, 90);
        using DecodedPhoto photo = TestPhotos.Decode(JpegBytes.WithSegment(ycc, 0xEE, [.. "Adobe"u8, 0, 100, 0, 0, 0, 0, 0]));

        Assert.Same(StoredColor.Unknown, ZoneRounding.Of(photo, new(0, 0, 0, 32, 32)));
    }

    [Fact]
    public void Of_zone_without_a_whole_unit_is_unknown()
    {
        using DecodedPhoto photo = TestPhotos.Decode(TestPhotos.PatternJpeg());

        Assert.Same(StoredColor.Unknown, ZoneRounding.Of(photo, new(0, 8, 8, 16, 16)));
    }

    // Rounding explains less than two codes. What is farther off was cut at black or white; here the means are of another photo.
    [Fact]
    public void Of_pixels_that_rounding_does_not_explain_is_unknown()
    {
        using DecodedPhoto dark = TestPhotos.Decode(PhotoEncoder.EncodeJpeg(TestPhotos.FlatRgb(Side, Side, 120, 120, 120), Side, Side, 90));
        using DecodedPhoto light = TestPhotos.Decode(PhotoEncoder.EncodeJpeg(TestPhotos.FlatRgb(Side, Side, 123, 123, 123), Side, Side, 90));
        using var mixed = new DecodedPhoto(
            Image.LoadPixelData<Rgb24>(Pixels(dark), Side, Side), ExifFacts.None, dark.ColorSpace)
        {
            Quantizer = dark.Quantizer,
            Means = light.Means,
        };

        Assert.Same(StoredColor.Unknown, ZoneRounding.Of(mixed, Whole));
        Assert.NotSame(StoredColor.Unknown, ZoneRounding.Of(dark, Whole));
    }

    // Every unit of a progressive file: what its scans say and what the decoder made of it differ by rounding alone.
    [Fact]
    public void Means_of_progressive_scans_are_those_of_the_decoded_pixels()
    {
        using DecodedPhoto photo = TestPhotos.Decode(TestPhotos.ProgressiveJpeg);
        BlockMeans means = photo.Means!;

        Assert.Equal((16, 16), (means.UnitWidthPx, means.UnitHeightPx));
        for (int unit = 0; unit < 6; unit++)
        {
            var (x, y) = (unit % 3, unit / 3);
            Assert.Equal(BrightnessOver(photo, x, y), means.Over(x, y, x + 1, y + 1).Y, 0.6);
        }
    }

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    [InlineData(4)]
    [InlineData(5)]
    [InlineData(6)]
    [InlineData(7)]
    [InlineData(8)]
    public void Stored_is_where_the_grid_takes_its_pixels_from(int orientation)
    {
        var grid = OrientedGrid.For(7, 5, orientation);

        var (left, top, right, bottom) = grid.Stored(1, 2, 4, 5);

        int[] shown = [.. Enumerable.Range(0, 7 * 5).Where(i =>
        {
            int at = grid.Origin + (i % 7 * grid.StepX) + (i / 7 * grid.StepY);
            return at % grid.Width is >= 1 and < 4 && at / grid.Width is >= 2 and < 5;
        })];
        int[] named = [.. Enumerable.Range(0, 7 * 5).Where(i => i % 7 >= left && i % 7 < right && i / 7 >= top && i / 7 < bottom)];
        Assert.Equal(9, shown.Length);
        Assert.Equal(shown, named);
    }

    private static double BrightnessOver(DecodedPhoto photo, int unitX, int unitY)
    {
        double sum = 0;
        for (int y = 16 * unitY; y < 16 * (unitY + 1); y++)
        {
            for (int x = 16 * unitX; x < 16 * (unitX + 1); x++)
            {
                ReadOnlySpan<byte> pixel = photo.StoredRow(y).Slice(3 * x, 3);

                // Rec. 601 luma: ITU-T T.871.
                sum += (0.299 * pixel[0]) + (0.587 * pixel[1]) + (0.114 * pixel[2]);
            }
        }

        return sum / 256;
    }

    private static byte[] Noisy(double[] level, Random random)
    {
        var rgb = new byte[3 * Side * Side];
        for (int i = 0; i < rgb.Length; i++)
        {
            double noise = 0;
            for (int k = 0; k < 12; k++)
            {
                noise += random.NextDouble() - 0.5;
            }

            rgb[i] = (byte)Math.Clamp(Math.Round(level[i % 3] + noise), 0, 255);
        }

        return rgb;
    }

    private static byte[] Pixels(DecodedPhoto photo)
    {
        var rgb = new byte[3 * Side * Side];
        for (int y = 0; y < Side; y++)
        {
            photo.StoredRow(y).CopyTo(rgb.AsSpan(3 * Side * y));
        }

        return rgb;
    }

    private static double[] Light(byte[] rgb)
    {
        var sums = new double[3];
        for (int i = 0; i < rgb.Length; i++)
        {
            sums[i % 3] += SrgbTransfer.ByteToLinear[rgb[i]] / (Side * Side);
        }

        return sums;
    }
}
