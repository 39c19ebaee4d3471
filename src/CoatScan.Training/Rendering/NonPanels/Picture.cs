namespace CoatScan.Training.Rendering.NonPanels;

/// <summary>A picture being drawn, display values in [0, 1], with its own random numbers.</summary>
internal sealed class Picture(int widthPx, int heightPx, Random random)
{
    private readonly double[] _values = new double[widthPx * heightPx * 3];

    public int WidthPx { get; } = widthPx;

    public int HeightPx { get; } = heightPx;

    public Random Random { get; } = random;

    public int SidePx => Math.Min(WidthPx, HeightPx);

    public double Between(double low, double high) => low + ((high - low) * Random.NextDouble());

    public double[] AnyColor() => [Random.NextDouble(), Random.NextDouble(), Random.NextDouble()];

    /// <summary>Sets every pixel from its place.</summary>
    public void Fill(Func<int, int, double[]> color)
    {
        for (var y = 0; y < HeightPx; y++)
        {
            for (var x = 0; x < WidthPx; x++)
            {
                Set(x, y, color(x, y));
            }
        }
    }

    public void Set(int x, int y, double[] color)
    {
        for (var channel = 0; channel < 3; channel++)
        {
            _values[(((y * WidthPx) + x) * 3) + channel] = color[channel];
        }
    }

    /// <summary>Fills an ellipse; the color may depend on the share of the way to its outline, [0, 1].</summary>
    public void Ellipse(double x, double y, double halfX, double halfY, Func<double, double, double, double[]> color)
    {
        for (var py = Math.Max(0, (int)(y - halfY)); py < Math.Min(HeightPx, y + halfY); py++)
        {
            for (var px = Math.Max(0, (int)(x - halfX)); px < Math.Min(WidthPx, x + halfX); px++)
            {
                var (dx, dy) = ((px - x) / halfX, (py - y) / halfY);
                var share = Math.Sqrt((dx * dx) + (dy * dy));
                if (share < 1)
                {
                    Set(px, py, color(share, dx, dy));
                }
            }
        }
    }

    /// <summary>Fills an upright rectangle.</summary>
    public void Box(double x, double y, double width, double height, double[] color)
    {
        for (var py = Math.Max(0, (int)y); py < Math.Min(HeightPx, y + height); py++)
        {
            for (var px = Math.Max(0, (int)x); px < Math.Min(WidthPx, x + width); px++)
            {
                Set(px, py, color);
            }
        }
    }

    /// <summary>Smooth noise in about [-1, 1], features of the given size and smaller ones on top.</summary>
    public double[] Clouds(double cellPx, int octaves)
    {
        var sum = new double[WidthPx * HeightPx];
        var amplitude = 0.6;
        for (var octave = 0; octave < octaves; octave++)
        {
            AddLattice(sum, Math.Max(2, cellPx), amplitude);
            cellPx /= 2;
            amplitude *= 0.6;
        }

        return sum;
    }

    /// <summary>8-bit red, green, blue, row by row.</summary>
    public byte[] ToBytes() => [.. _values.Select(value => (byte)Math.Clamp(Math.Round(value * 255), 0, 255))];

    private void AddLattice(double[] sum, double cellPx, double amplitude)
    {
        var columns = (int)(WidthPx / cellPx) + 2;
        var rows = (int)(HeightPx / cellPx) + 2;
        var lattice = new double[columns * rows];
        for (var i = 0; i < lattice.Length; i++)
        {
            lattice[i] = Between(-1, 1);
        }

        for (var y = 0; y < HeightPx; y++)
        {
            var (row, v) = Split(y / cellPx);
            for (var x = 0; x < WidthPx; x++)
            {
                var (column, u) = Split(x / cellPx);
                var at = (row * columns) + column;
                var top = lattice[at] + ((lattice[at + 1] - lattice[at]) * u);
                var bottom = lattice[at + columns] + ((lattice[at + columns + 1] - lattice[at + columns]) * u);
                sum[(y * WidthPx) + x] += amplitude * (top + ((bottom - top) * v));
            }
        }
    }

    private static (int Whole, double Eased) Split(double value)
    {
        var whole = (int)value;
        var part = value - whole;
        return (whole, part * part * (3 - (2 * part)));
    }
}
