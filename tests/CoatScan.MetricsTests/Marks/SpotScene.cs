using CoatScan.Metrics;
using CoatScan.Metrics.Color;
using CoatScan.Metrics.Filters;

namespace CoatScan.MetricsTests.Marks;

/// <summary>A painted panel with disks of known number and area, under light that falls off, with a reflected edge, noise and blur.</summary>
/// <remarks>
/// Disks have radii of 2.5 to 20 px, even in the logarithm, and keep 2 px between them, but for about a tenth that touch another. The
/// luminance is paint times light; a disk is a share of the paint's. The reflected edge adds light on one side of a line.
/// </remarks>
internal sealed class SpotScene
{
    internal const int Width = 1024;
    internal const int Height = 768;

    private const double LeastRadius = 2.5;
    private const double LargestRadius = 20.0;
    private const double TouchingShare = 0.1;

    private readonly Random _random;
    private readonly List<(double X, double Y, double Radius)> _disks = [];

    internal SpotScene(int seed)
    {
        _random = new(seed);
        var wanted = (int)Math.Round(5.0 * Math.Pow(100.0, _random.NextDouble()));
        for (var tries = 0; _disks.Count < wanted && tries < 200_000; tries++)
        {
            TryPlace();
        }

        Luminance = Render();
        Lightness = ToLightness(Luminance);
    }

    internal Plane Luminance { get; }

    internal Plane Lightness { get; }

    internal int Count => _disks.Count;

    internal double AreaFraction
    {
        get
        {
            var area = 0.0;
            foreach (var disk in _disks)
            {
                area += Math.PI * disk.Radius * disk.Radius;
            }

            return area / (Width * Height);
        }
    }

    internal IReadOnlyList<(double X, double Y, double Radius)> Disks => _disks;

    internal static Plane ToLightness(Plane luminance) => LabPlanes.FromLinear(luminance, luminance, luminance).Lightness;

    private double Between(double low, double high) => low + ((high - low) * _random.NextDouble());

    private void TryPlace()
    {
        var radius = LeastRadius * Math.Pow(LargestRadius / LeastRadius, _random.NextDouble());
        var partner = -1;
        var (x, y) = (Between(radius + 4, Width - radius - 4), Between(radius + 4, Height - radius - 4));
        if (_disks.Count > 0 && _random.NextDouble() < TouchingShare)
        {
            partner = _random.Next(_disks.Count);
            var other = _disks[partner];
            var angle = Between(0.0, 2.0 * Math.PI);
            var distance = other.Radius + radius;
            (x, y) = (other.X + (distance * Math.Cos(angle)), other.Y + (distance * Math.Sin(angle)));
            if (x < radius + 4 || y < radius + 4 || x > Width - radius - 4 || y > Height - radius - 4)
            {
                return;
            }
        }

        for (var i = 0; i < _disks.Count; i++)
        {
            var disk = _disks[i];
            var gap = Math.Sqrt(((disk.X - x) * (disk.X - x)) + ((disk.Y - y) * (disk.Y - y))) - disk.Radius - radius;
            if (i != partner && gap < 2.0)
            {
                return;
            }
        }

        _disks.Add((x, y, radius));
    }

    private Plane Render()
    {
        var paint = Between(0.08, 0.4);
        var isDark = _random.NextDouble() < 0.6;
        var (slopeX, slopeY) = (Between(-0.3, 0.3) / Width, Between(-0.3, 0.3) / Height);
        var edgeAngle = Between(0.0, Math.PI);
        var (edgeX, edgeY) = (Math.Cos(edgeAngle), Math.Sin(edgeAngle));
        var edgeAt = (edgeX * Between(0.2, 0.8) * Width) + (edgeY * Between(0.2, 0.8) * Height);
        var edgeLight = paint * Between(0.1, 0.6);
        var edgeWidth = Between(0.8, 6.0);
        var plane = Pattern.Draw(Width, Height, (x, y) => paint
            * (1.0 + (slopeX * (x - (Width / 2))) + (slopeY * (y - (Height / 2)))));
        foreach (var disk in _disks)
        {
            var factor = isDark ? Between(0.35, 0.75) : Between(1.4, 2.2);
            Multiply(plane, disk, factor);
        }

        for (var y = 0; y < Height; y++)
        {
            for (var x = 0; x < Width; x++)
            {
                var across = (edgeX * x) + (edgeY * y) - edgeAt;
                plane[x, y] += (float)(edgeLight / (1.0 + Math.Exp(-across / edgeWidth)));
            }
        }

        var blurred = GaussianFilter.Apply(plane, Between(0.5, 1.1));
        var noise = paint * Between(0.002, 0.015);
        return Pattern.Draw(Width, Height, (x, y) => Math.Max(0.0, blurred[x, y] + (noise * Pattern.Normal(_random))));
    }

    private static void Multiply(Plane plane, (double X, double Y, double Radius) disk, double factor)
    {
        var reach = (int)disk.Radius + 2;
        for (var y = (int)disk.Y - reach; y <= (int)disk.Y + reach; y++)
        {
            for (var x = (int)disk.X - reach; x <= (int)disk.X + reach; x++)
            {
                plane[x, y] *= (float)(1.0 + ((factor - 1.0) * Coverage(disk, x, y)));
            }
        }
    }

    private static double Coverage((double X, double Y, double Radius) disk, int x, int y)
    {
        var inside = 0;
        for (var i = 0; i < 16; i++)
        {
            var dx = x - disk.X + (((i % 4) + 0.5) / 4.0) - 0.5;
            var dy = y - disk.Y + (((i / 4) + 0.5) / 4.0) - 0.5;
            inside += (dx * dx) + (dy * dy) <= disk.Radius * disk.Radius ? 1 : 0;
        }

        return inside / 16.0;
    }
}
