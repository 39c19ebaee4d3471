using CoatScan.Classification;
using CoatScan.Metrics;

namespace CoatScan.ClassificationTests;

public sealed class NetworkViewTests
{
    [Fact]
    public void Of_a_plain_panel_is_plain_in_sRGB()
    {
        // IEC 61966-2-1: linear 0.214 is display 0.500, 127.5 of 255.
        var view = NetworkView.Of(Planes(300, 200, (_, _) => 0.2140f));

        Assert.Equal(NetworkView.Length, view.Length);
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
        var view = NetworkView.Of(Planes(NetworkView.SidePx * 4, NetworkView.SidePx * 2, (x, _) => x % 2));

        Assert.Equal(188, view[4 * ((100 * NetworkView.SidePx) + 50)], 1d);
    }

    [Fact]
    public void Of_a_panel_squeezes_the_longer_side()
    {
        var view = NetworkView.Of(Planes(896, 448, (x, _) => x < 448 ? 0f : 1f));

        var row = 10 * NetworkView.SidePx;
        Assert.Equal(0, view[4 * (row + 223)]);
        Assert.Equal(255, view[4 * (row + 224)]);
    }

    [Fact]
    public void Of_a_small_panel_interpolates_between_neighbors()
    {
        var view = NetworkView.Of(Planes(2, 2, (x, _) => x));
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
