using CoatScan.Classification;
using CoatScan.Metrics;

namespace CoatScan.ClassificationTests;

public sealed class NetworkViewTests
{
    [Fact]
    public void Of_a_plain_panel_is_plain_in_sRGB()
    {
        // IEC 61966-2-1: linear 0.214 is display 0.500, 127.5 of 255.
        var view = NetworkView.Of(Planes(300, 200, (_, _) => 0.2140f), NetworkView.SidePx);

        Assert.Equal(NetworkView.SidePx * NetworkView.SidePx * NetworkView.PixelBytes, view.Length);
        for (var at = 0; at < view.Length; at += NetworkView.PixelBytes)
        {
            Assert.InRange(view[at], 127, 128);
            Assert.Equal(255, view[at + 3]);
        }
    }

    [Fact]
    public void Of_a_large_panel_keeps_the_mean_of_linear_light()
    {
        // Black and white lines one pixel wide: half the light is display 188 (IEC 61966-2-1), not 128.
        var view = NetworkView.Of(Planes(NetworkView.SidePx * 4, NetworkView.SidePx * 2, (x, _) => x % 2), NetworkView.SidePx);

        Assert.Equal(188, view[4 * ((100 * NetworkView.SidePx) + 50)], 1d);
    }

    [Fact]
    public void Of_a_panel_squeezes_the_longer_side()
    {
        const int Half = NetworkView.SidePx / 2;
        var view = NetworkView.Of(Planes(4 * Half, 2 * Half, (x, _) => x < 2 * Half ? 0f : 1f), NetworkView.SidePx);

        var row = 10 * NetworkView.SidePx;
        Assert.Equal(0, view[4 * (row + Half - 1)]);
        Assert.Equal(255, view[4 * (row + Half)]);
    }

    [Fact]
    public void Of_makes_the_picture_of_the_side_that_is_asked_for()
    {
        var view = NetworkView.Of(Planes(30, 20, (x, _) => x / 30f), NetworkView.SmallSidePx);

        Assert.Equal(NetworkView.SmallSidePx * NetworkView.SmallSidePx * NetworkView.PixelBytes, view.Length);
    }

    [Fact]
    public void Mirror_changes_left_and_right_of_every_row()
    {
        var view = NetworkView.Of(Planes(60, 40, (x, y) => ((3 * x) + (11 * y)) % 97 / 97f), NetworkView.SidePx);

        var mirrored = NetworkView.Mirror(view, NetworkView.SidePx);

        Assert.NotEqual(view, mirrored);
        Assert.Equal(view, NetworkView.Mirror(mirrored, NetworkView.SidePx));
        for (var y = 0; y < NetworkView.SidePx; y += 37)
        {
            var row = y * NetworkView.SidePx * NetworkView.PixelBytes;
            Assert.Equal(
                view.AsSpan(row + (5 * NetworkView.PixelBytes), NetworkView.PixelBytes).ToArray(),
                mirrored.AsSpan(row + ((NetworkView.SidePx - 6) * NetworkView.PixelBytes), NetworkView.PixelBytes).ToArray());
        }
    }

    [Fact]
    public void Of_a_small_panel_interpolates_between_neighbors()
    {
        var view = NetworkView.Of(Planes(2, 2, (x, _) => x), NetworkView.SidePx);
        var row = 10 * NetworkView.SidePx;

        Assert.Equal(0, view[4 * row]);
        Assert.Equal(255, view[4 * (row + NetworkView.SidePx - 1)]);
        Assert.InRange(view[4 * (row + (NetworkView.SidePx / 2))], 186, 190);
    }

    private static PanelPlanes Planes(int width, int height, Func<int, int, float> light)
    {
        var plane = new Plane(width, height);
        for (var y = 0; y < height; y++)
        {
            for (var x = 0; x < width; x++)
            {
                plane[x, y] = light(x, y);
            }
        }

        return new PanelPlanes
        {
            Red = plane,
            Green = plane,
            Blue = plane,
            Lightness = plane,
            AStar = plane,
            BStar = plane,
            Clipped = new bool[width * height],
            OriginalPxPerPx = 1,
        };
    }
}
