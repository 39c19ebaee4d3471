using CoatScan.DemoPanels.Surface;

namespace CoatScan.DemoPanels.Defects;

/// <summary>Orange peel: waves of a few millimeters that never leveled out.</summary>
internal static class WavyTexture
{
    public static void Paint(PanelContext context)
    {
        var random = context.Random;
        var wavelength = context.SizePx(1.5f, 10f, 7f, 45f);

        // A B-spline lattice of cell c has most of its power near wavelengths of 3 c.
        var waves = context.Field(wavelength / 3f, 2, 0.45f, random.LogUniform(0.8f, 1.3f));
        if (random.Chance(0.4f))
        {
            Dimple(waves);
        }

        // Rms slope of unit-variance waves of one length is about 2 pi / L / sqrt 2 along each axis.
        var slope = random.LogUniform(0.02f, 0.07f) * context.Strength;
        var amplitude = slope * wavelength * context.Surface.MmPerPx / 4.4f;
        var region = context.Region(0.6f);
        for (var at = 0; at < waves.Values.Length; at++)
        {
            context.Surface.HeightMm.Values[at] += waves.Values[at] * amplitude * region.Values[at];
            context.Surface.MarkDefect(at, Ramp.Smooth(0.2f, 0.6f, region.Values[at]));
        }
    }

    // Round hills between narrow valleys, as on the skin of the fruit.
    private static void Dimple(Metrics.Plane waves)
    {
        foreach (ref var value in waves.Values.AsSpan())
        {
            value = value < 0f ? value * 1.3f : 0.7f * value / (1f + (0.4f * value));
        }
    }
}
