using CoatScan.DemoPanels.Light;
using CoatScan.DemoPanels.Paint;
using CoatScan.DemoPanels.Surface;
using CoatScan.Metrics;

namespace CoatScan.DemoPanels.Scenes;

/// <summary>Flat drawing for scenes that are no panel.</summary>
internal sealed class Canvas(LinearImage image, PanelRandom random)
{
    public LinearImage Image { get; } = image;

    public PanelRandom Random { get; } = random;

    public int Width => Image.Width;

    public int Height => Image.Height;

    public float Side => Math.Min(Image.Width, Image.Height);

    public Plane Field(float cellPx, int octaves, float gain = 0.5f, float aspect = 1f) =>
        Noise.Fractal(Random, Width, Height, MathF.Max(2f, cellPx), octaves, gain, aspect);

    /// <summary>Fills the whole picture.</summary>
    public void Fill(Func<int, int, Rgb> color)
    {
        for (var y = 0; y < Height; y++)
        {
            for (var x = 0; x < Width; x++)
            {
                Image[(y * Width) + x] = color(x, y);
            }
        }
    }

    /// <summary>Lays a color over each pixel by the coverage, [0, 1], that comes with it.</summary>
    public void Over(Func<int, int, (Rgb Color, float Coverage)> paint)
    {
        for (var y = 0; y < Height; y++)
        {
            for (var x = 0; x < Width; x++)
            {
                var (color, coverage) = paint(x, y);
                if (coverage > 0.002f)
                {
                    Image.Over((y * Width) + x, color, coverage);
                }
            }
        }
    }

    /// <summary>Fills a blob; the color may depend on the place and on the share of the way to the outline.</summary>
    public void Fill(Blob blob, float opacity, Func<int, int, float, Rgb> color)
    {
        var box = PixelBox.Around(blob.CenterX, blob.CenterY, blob.ReachPx + 2f, Width, Height);
        for (var y = box.Y0; y < box.Y1; y++)
        {
            for (var x = box.X0; x < box.X1; x++)
            {
                var coverage = Ramp.Smooth(0.8f, -0.8f, blob.DistancePx(x, y)) * opacity;
                if (coverage > 0f)
                {
                    Image.Over((y * Width) + x, color(x, y, blob.Share(x, y)), coverage);
                }
            }
        }
    }

    /// <summary>Fills an upright rectangle given in pixels.</summary>
    public void Box(float x0, float y0, float x1, float y1, Rgb color, float opacity = 1f)
    {
        for (var y = Math.Max(0, (int)y0); y < Math.Min(Height, (int)y1); y++)
        {
            for (var x = Math.Max(0, (int)x0); x < Math.Min(Width, (int)x1); x++)
            {
                Image.Over((y * Width) + x, color, opacity);
            }
        }
    }

    /// <summary>Lays a color over the picture through a coverage plane.</summary>
    public void Print(Plane coverage, Rgb color)
    {
        for (var at = 0; at < coverage.Values.Length; at++)
        {
            Image.Over(at, color, coverage.Values[at]);
        }
    }

    /// <summary>Multiplies the whole picture by a slow change of light.</summary>
    public void LightUnevenly()
    {
        var x = 0.25f * Random.Gaussian();
        var y = 0.25f * Random.Gaussian();
        var soft = Field(Side * 0.7f, 2);
        var amount = Random.Uniform(0f, 0.2f);
        for (var py = 0; py < Height; py++)
        {
            for (var px = 0; px < Width; px++)
            {
                var at = (py * Width) + px;
                var u = ((2f * px) / Width) - 1f;
                var v = ((2f * py) / Height) - 1f;
                Image[at] *= Math.Clamp(1f + (x * u) + (y * v) + (amount * soft.Values[at]), 0.2f, 2f);
            }
        }
    }
}
