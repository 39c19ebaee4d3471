using CoatScan.DemoPanels.Paint;
using CoatScan.DemoPanels.Surface;

namespace CoatScan.DemoPanels.Defects;

/// <summary>Chalk, haze, fading: a pale veil and a mirror image gone soft, over much of the panel.</summary>
internal static class Dulling
{
    public static void Paint(PanelContext context)
    {
        var random = context.Random;
        var surface = context.Surface;
        var paint = context.Coats.Paint.Albedo;
        var patches = context.Field(random.LogUniform(0.15f, 0.6f) * context.Side, 4, 0.55f);
        var wiped = context.Field(random.LogUniform(0.02f, 0.08f) * context.Side, 3, 0.55f, random.LogUniform(1f, 10f));
        var region = context.Region(0.1f);

        // Chalk is pale; on paint that is pale itself, what shows is loss of color and of the mirror image, or a gray film.
        var isPale = paint.Luminance > 0.4f;
        var veilColor = isPale
            ? Rgb.Gray(paint.Luminance * random.Uniform(0.45f, 0.7f))
            : Rgb.Gray(MathF.Max(random.Uniform(0.35f, 0.65f), 1.5f * paint.Luminance));
        var veil = MathF.Min(0.75f, random.Uniform(0.42f, 0.7f) * context.Strength);
        var roughness = random.Uniform(0.14f, 0.4f) * context.Strength;
        var unevenness = random.Uniform(0.25f, 0.7f);
        for (var at = 0; at < region.Values.Length; at++)
        {
            var share = region.Values[at] * Math.Clamp(
                0.85f + (unevenness * ((0.45f * patches.Values[at]) + (0.15f * wiped.Values[at]))), 0.15f, 1.3f);
            surface.Tint(at, veilColor, MathF.Min(0.9f, veil * share));
            surface.RoughnessUm.Values[at] += roughness * share;
            surface.SpecularF0.Values[at] *= 1f - (0.5f * MathF.Min(1f, share));
            surface.MarkDefect(at, Ramp.Smooth(0.25f, 0.55f, share));
        }
    }
}
