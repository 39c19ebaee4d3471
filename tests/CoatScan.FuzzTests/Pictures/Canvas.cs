namespace CoatScan.FuzzTests.Pictures;

/// <summary>A gray picture to draw on.</summary>
internal sealed class Canvas
{
    private static readonly double[][] Tints = [[1, 1, 1], [1, 0.55, 0.3], [0.4, 0.5, 1], [1, 0.95, 0.8]];

    private readonly float[] _values;

    public Canvas(int width, int height, double ground)
    {
        (Width, Height) = (width, height);
        _values = new float[width * height];
        Array.Fill(_values, (float)ground);
    }

    public int Width { get; }

    public int Height { get; }

    public int Area => Width * Height;

    /// <summary>Sets every pixel.</summary>
    public void Each(Func<int, int, double> value)
    {
        for (var y = 0; y < Height; y++)
        {
            for (var x = 0; x < Width; x++)
            {
                _values[(y * Width) + x] = (float)value(x, y);
            }
        }
    }

    /// <summary>Fills a disc, as far as it lies inside.</summary>
    public void Disc(double centerX, double centerY, double radius, double value)
    {
        for (var y = (int)Math.Max(0, centerY - radius); y <= Math.Min(Height - 1, centerY + radius); y++)
        {
            for (var x = (int)Math.Max(0, centerX - radius); x <= Math.Min(Width - 1, centerX + radius); x++)
            {
                if (((x - centerX) * (x - centerX)) + ((y - centerY) * (y - centerY)) <= radius * radius)
                {
                    _values[(y * Width) + x] = (float)value;
                }
            }
        }
    }

    /// <summary>Draws a line, as far as it lies inside.</summary>
    public void Line(double fromX, double fromY, double toX, double toY, int thickness, double value)
    {
        var steps = (int)Math.Ceiling(Math.Max(Math.Abs(toX - fromX), Math.Abs(toY - fromY))) + 1;
        for (var i = 0; i <= steps; i++)
        {
            Disc(fromX + ((toX - fromX) * i / steps), fromY + ((toY - fromY) * i / steps), thickness / 2.0, value);
        }
    }

    /// <summary>RGB, 8 bits a value.</summary>
    /// <param name="tint">Which of a few colors the gray takes; 0 for none.</param>
    public byte[] ToRgb(int tint)
    {
        var rgb = new byte[Area * 3];
        for (var i = 0; i < rgb.Length; i++)
        {
            rgb[i] = (byte)Math.Clamp(_values[i / 3] * Tints[tint][i % 3], 0, 255);
        }

        return rgb;
    }
}
