using CoatScan.Imaging;

namespace CoatScan.ImagingTests.Normalizing;

public sealed class AreaReducerTests
{
    [Fact]
    public void Normalize_checkerboard_becomes_the_mean_of_its_light()
    {
        // Black and white squares of one pixel, 2 x 2 to one: half the light, not half the stored value (which would be 0.216).
        byte[] rgb = Paint(200, 100, (x, y) => (byte)((x + y) % 2 == 0 ? 255 : 0));

        NormalizedPhoto photo = Reduce(rgb, 200, 100, 0.01);

        Assert.Equal((141, 70), (photo.Planes.Width, photo.Planes.Height));
        Assert.Equal(0.5, photo.Planes.Green.Values.Average(), 0.001);
        NormalizedPhoto exact = Reduce(Paint(200, 200, (x, y) => (byte)((x + y) % 2 == 0 ? 255 : 0)), 200, 200, 0.01);
        Assert.All(exact.Planes.Green.Values, value => Assert.Equal(0.5, value, 1e-5));
    }

    [Theory]
    [InlineData(300, 200)]
    [InlineData(257, 131)]
    [InlineData(101, 503)]
    [InlineData(640, 99)]
    public void Normalize_reduction_keeps_the_light_of_the_whole(int width, int height)
    {
        byte[] rgb = TestPhotos.PatternRgb(width, height);
        double expected = 0;
        for (int i = 1; i < rgb.Length; i += 3)
        {
            expected += Metrics.Color.SrgbTransfer.ToLinear(rgb[i] / 255.0);
        }

        NormalizedPhoto photo = Reduce(rgb, width, height, 0.01);

        // Every pixel counts with exactly its area, so the mean does not move.
        Assert.Equal(expected / (width * height), photo.Planes.Green.Values.Average(v => (double)v), 2e-5);
        Assert.InRange(photo.Planes.Width * photo.Planes.Height, 9_000, 10_000);
        Assert.Equal((double)width / photo.Planes.Width, photo.Planes.OriginalPxPerPx, 0.02 * photo.Planes.OriginalPxPerPx);
    }

    [Fact]
    public void Normalize_ramp_keeps_its_place()
    {
        // A linear ramp is its own area mean at the middle of each cell; each pixel is a step, which moves a cell by up to 0.15 px.
        byte[] png = PngBytes.WithChunks(
            PhotoEncoder.EncodePng(Paint(250, 100, (x, _) => (byte)x), 250, 100),
            PngBytes.Chunk("gAMA"u8, [0, 1, 0x86, 0xA0]));

        NormalizedPhoto photo = TestPhotos.Normalize(png, options: new ImagingOptions { WorkingMegapixels = 0.01 });

        double step = 250.0 / photo.Planes.Width;
        for (int x = 0; x < photo.Planes.Width; x++)
        {
            Assert.Equal((((x + 0.5) * step) - 0.5) / 255, photo.Planes.Red[x, 5], 0.15 / 255);
        }
    }

    [Theory]
    [InlineData(100, 100, 100, 100)]
    [InlineData(99, 100, 99, 100)]
    [InlineData(101, 100, 100, 100)]
    [InlineData(103, 100, 101, 99)]
    [InlineData(800, 100, 283, 35)]
    public void Normalize_size_around_the_working_size(int width, int height, int expectedWidth, int expectedHeight)
    {
        NormalizedPhoto photo = Reduce(TestPhotos.FlatRgb(width, height, 9, 9, 9), width, height, 0.01);

        Assert.Equal((expectedWidth, expectedHeight), (photo.Planes.Width, photo.Planes.Height));
        Assert.True(photo.Planes.OriginalPxPerPx >= 1);
    }

    [Fact]
    public void Normalize_one_clipped_pixel_marks_the_cell_that_covers_it()
    {
        byte[] rgb = TestPhotos.FlatRgb(200, 200, 9, 9, 9);
        rgb.AsSpan(3 * ((200 * 11) + 20), 3).Fill(255);

        NormalizedPhoto photo = Reduce(rgb, 200, 200, 0.01);

        Assert.Equal([(5 * 100) + 10], photo.Planes.Clipped.Index().Where(p => p.Item).Select(p => p.Index));
    }

    private static NormalizedPhoto Reduce(byte[] rgb, int width, int height, double megapixels) => TestPhotos.Normalize(
        PhotoEncoder.EncodePng(rgb, width, height), options: new ImagingOptions { WorkingMegapixels = megapixels });

    private static byte[] Paint(int width, int height, Func<int, int, byte> level)
    {
        var rgb = new byte[3 * width * height];
        for (int i = 0; i < width * height; i++)
        {
            rgb.AsSpan(3 * i, 3).Fill(level(i % width, i / width));
        }

        return rgb;
    }
}
