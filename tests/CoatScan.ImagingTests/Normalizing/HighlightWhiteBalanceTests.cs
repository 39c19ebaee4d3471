using CoatScan.Imaging;
using CoatScan.Metrics.Color;

namespace CoatScan.ImagingTests.Normalizing;

public sealed class HighlightWhiteBalanceTests
{
    private const int SidePx = 240;

    private static readonly double[] RedPaint = [0.35, 0.02, 0.03];

    [Fact]
    public void Normalize_one_color_red_panel_keeps_its_color()
    {
        byte[] png = Scene(RedPaint, [1, 1, 1], highlight: 0);

        NormalizedPhoto photo = TestPhotos.Normalize(png);

        Assert.False(photo.Color.WhiteBalance.IsCorrected);
        Assert.Equal(0.35, photo.Planes.Red[10, SidePx / 2], 0.01);
        Assert.Equal(0.02, photo.Planes.Green[10, SidePx / 2], 0.005);
    }

    [Fact]
    public void Normalize_red_panel_with_a_neutral_highlight_keeps_its_color()
    {
        NormalizedPhoto photo = TestPhotos.Normalize(Scene(RedPaint, [1, 1, 1], highlight: 1.5));

        Assert.False(photo.Color.WhiteBalance.IsCorrected);
        Assert.Contains("neutral already", photo.Color.WhiteBalance.Reason, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(1.15, 0.85)]
    [InlineData(0.9, 1.2)]
    public void Normalize_tinted_light_in_the_highlight_is_taken_out(double red, double blue)
    {
        NormalizedPhoto photo = TestPhotos.Normalize(Scene(RedPaint, [red, 1, blue], highlight: 1.5));

        Assert.True(photo.Color.WhiteBalance.IsCorrected, photo.Color.WhiteBalance.Reason);
        Assert.Equal(1 / red, photo.Color.WhiteBalance.RedGain, 0.03);
        Assert.Equal(1 / blue, photo.Color.WhiteBalance.BlueGain, 0.03);

        // The paint is what it would be in neutral light.
        Assert.Equal(0.35, photo.Planes.Red[10, SidePx / 2], 0.02);
        Assert.Equal(0.03, photo.Planes.Blue[10, SidePx / 2], 0.005);
    }

    [Theory]
    [InlineData(1.4, 1.0, "too far from neutral")]
    [InlineData(1.0, 0.7, "too far from neutral")]
    public void Normalize_highlight_far_from_neutral_is_no_light(double red, double blue, string why)
    {
        NormalizedPhoto photo = TestPhotos.Normalize(Scene(RedPaint, [red, 1, blue], highlight: 1.5, radiusPx: 10));

        Assert.False(photo.Color.WhiteBalance.IsCorrected);
        Assert.Contains(why, photo.Color.WhiteBalance.Reason, StringComparison.Ordinal);
    }

    [Fact]
    public void Normalize_cream_panel_in_bright_light_keeps_its_color()
    {
        // Where the light is stronger, cream is only brighter cream: nothing tells the color of the light.
        NormalizedPhoto photo = TestPhotos.Normalize(Scene([0.5, 0.44, 0.36], [0.5, 0.44, 0.36], highlight: 4));

        Assert.False(photo.Color.WhiteBalance.IsCorrected);
        Assert.Contains("paint's own color", photo.Color.WhiteBalance.Reason, StringComparison.Ordinal);
    }

    [Fact]
    public void Normalize_large_clipped_area_is_no_highlight()
    {
        byte[] rgb = TestPhotos.FlatRgb(100, 100, 150, 40, 40);
        rgb.AsSpan(0, 3 * 100 * 6).Fill(255);

        NormalizedPhoto photo = TestPhotos.Normalize(PhotoEncoder.EncodePng(rgb, 100, 100));

        Assert.False(photo.Color.WhiteBalance.IsCorrected);
        Assert.Contains("too much is clipped", photo.Color.WhiteBalance.Reason, StringComparison.Ordinal);
    }

    /// <summary>Paint under light of a color, with a round highlight that adds the light itself and clips in the middle.</summary>
    private static byte[] Scene(double[] paint, double[] light, double highlight, double radiusPx = 20)
    {
        var rgb = new byte[3 * SidePx * SidePx];
        bool isShading = ReferenceEquals(paint, light) || (paint[1] == light[1] && paint[2] == light[2]);
        for (int y = 0, i = 0; y < SidePx; y++)
        {
            for (int x = 0; x < SidePx; x++)
            {
                double dx = x - (SidePx / 2.0);
                double dy = y - (SidePx / 2.0);
                double gloss = highlight * Math.Exp(-((dx * dx) + (dy * dy)) / (2 * radiusPx * radiusPx));
                for (int c = 0; c < 3; c++, i++)
                {
                    double body = isShading ? paint[c] : paint[c] * light[c];
                    rgb[i] = SrgbTransfer.ToByte(body + (gloss * light[c]));
                }
            }
        }

        return PhotoEncoder.EncodePng(rgb, SidePx, SidePx);
    }
}
