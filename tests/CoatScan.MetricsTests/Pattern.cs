using CoatScan.Metrics;
using CoatScan.Metrics.Color;

namespace CoatScan.MetricsTests;

/// <summary>Draws planes and panels with known content.</summary>
internal static class Pattern
{
    internal static Plane Draw(int width, int height, Func<int, int, double> value)
    {
        var plane = new Plane(width, height);
        Fill(plane, value);
        return plane;
    }

    internal static void Fill(Plane plane, Func<int, int, double> value)
    {
        for (var y = 0; y < plane.Height; y++)
        {
            for (var x = 0; x < plane.Width; x++)
            {
                plane[x, y] = (float)value(x, y);
            }
        }
    }

    internal static Plane Noise(int width, int height, int seed)
    {
        var random = new Random(seed);
        return Draw(width, height, (_, _) => Normal(random));
    }

    internal static double Normal(Random random) =>
        Math.Sqrt(-2.0 * Math.Log(1.0 - random.NextDouble())) * Math.Cos(2.0 * Math.PI * random.NextDouble());

    internal static Plane MirrorX(Plane plane) =>
        Draw(plane.Width, plane.Height, (x, y) => plane[plane.Width - 1 - x, y]);

    /// <summary>A gray panel from linear light.</summary>
    internal static PanelPlanes Gray(Plane linear, double? mmPerPx = null, double originalPxPerPx = 1.0) =>
        Panel(linear, linear, linear, mmPerPx, originalPxPerPx);

    internal static PanelPlanes Panel(
        Plane red, Plane green, Plane blue, double? mmPerPx = null, double originalPxPerPx = 1.0)
    {
        var lab = LabPlanes.FromLinear(red, green, blue);
        var clipped = new bool[red.Values.Length];
        for (var i = 0; i < clipped.Length; i++)
        {
            clipped[i] = red.Values[i] >= 1.0f || green.Values[i] >= 1.0f || blue.Values[i] >= 1.0f;
        }

        return new()
        {
            Red = red,
            Green = green,
            Blue = blue,
            Lightness = lab.Lightness,
            AStar = lab.AStar,
            BStar = lab.BStar,
            Clipped = clipped,
            MmPerPx = mmPerPx,
            OriginalPxPerPx = originalPxPerPx,
        };
    }

    internal static PanelPlanes MirrorX(PanelPlanes panel) => Panel(
        MirrorX(panel.Red), MirrorX(panel.Green), MirrorX(panel.Blue), panel.MmPerPx, panel.OriginalPxPerPx);

    internal static double Linear(double lightness) =>
        lightness > 8.0 ? Math.Pow((lightness + 16.0) / 116.0, 3.0) : lightness * 27.0 / 24389.0;

    internal static void AssertEqual(Plane expected, Plane actual, double tolerance)
    {
        Assert.Equal(expected.Width, actual.Width);
        Assert.Equal(expected.Height, actual.Height);
        for (var i = 0; i < expected.Values.Length; i++)
        {
            Assert.Equal(expected.Values[i], actual.Values[i], tolerance);
        }
    }
}
