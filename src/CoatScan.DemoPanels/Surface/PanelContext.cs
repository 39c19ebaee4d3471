using CoatScan.DemoPanels.Paint;
using CoatScan.Metrics;

namespace CoatScan.DemoPanels.Surface;

/// <summary>What faults and clutter are painted with.</summary>
/// <param name="Surface">The panel so far.</param>
/// <param name="Random">The own stream of what is painted.</param>
/// <param name="Coats">The panel's coats.</param>
/// <param name="Strength">1 at first; raised when a person could not have seen the fault.</param>
/// <param name="Anchors">Fasteners and seams laid so far, where faults like to start.</param>
internal sealed record PanelContext(
    PanelSurface Surface, PanelRandom Random, CoatStack Coats, float Strength, AnchorPoints Anchors)
{
    private const float DesignSidePx = 480f;

    public int Width => Surface.Width;

    public int Height => Surface.Height;

    public float Side => Surface.SidePx;

    /// <summary>Pixels of this raster per pixel of a 640 x 480 photo.</summary>
    public float PxScale => Surface.SidePx / DesignSidePx;

    /// <summary>
    /// A size drawn in mm and turned into pixels, then held inside what the photo can show. The limits are for a
    /// 640 x 480 photo.
    /// </summary>
    public float SizePx(float lowMm, float highMm, float lowPx, float highPx) => Math.Clamp(
        Random.LogUniform(lowMm, highMm) / Surface.MmPerPx,
        lowPx * PxScale * Random.Uniform(1f, 1.3f),
        highPx * PxScale * Random.Uniform(0.6f, 1f));

    /// <summary>A smooth field with features of about the given size.</summary>
    public Plane Field(float cellPx, int octaves, float gain = 0.5f, float aspect = 1f) =>
        Noise.Fractal(Random, Width, Height, MathF.Max(2f, cellPx), octaves, gain, aspect);

    /// <summary>
    /// Where over the panel the fault is present, [0, 1]: everywhere, or a soft-edged part of at least about a quarter.
    /// </summary>
    public Plane Region(float everywhere)
    {
        var region = new Plane(Width, Height);
        if (Random.Chance(everywhere))
        {
            Array.Fill(region.Values, 1f);
            return region;
        }

        var noise = Field(Side * 0.5f, 3);
        var x0 = Random.Uniform(0.25f, 0.75f) * Width;
        var y0 = Random.Uniform(0.25f, 0.75f) * Height;
        var reach = Side * Random.Uniform(0.35f, 0.8f);
        for (var y = 0; y < Height; y++)
        {
            for (var x = 0; x < Width; x++)
            {
                var distance = MathF.Sqrt(((x - x0) * (x - x0)) + ((y - y0) * (y - y0))) / reach;
                region[x, y] = Ramp.Smooth(1.1f, 0.8f, distance + (0.18f * noise[x, y]));
            }
        }

        return region;
    }
}
