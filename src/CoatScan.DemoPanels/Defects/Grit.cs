using CoatScan.DemoPanels.Paint;
using CoatScan.DemoPanels.Surface;

namespace CoatScan.DemoPanels.Defects;

/// <summary>A sandy surface: paint that arrived half dry, or mist of other work that settled and stuck.</summary>
internal static class Grit
{
    public static void Paint(PanelContext context)
    {
        var random = context.Random;
        var surface = context.Surface;
        var grainPx = MathF.Max(1.7f * context.PxScale, context.SizePx(0.15f, 0.8f, 1.7f, 4f));
        var grain = context.Field(grainPx, 2, 0.7f);
        var region = context.Region(0.3f);
        var clumps = context.Field(random.LogUniform(8f, 40f) * context.PxScale, 3);
        var heightMm = random.LogUniform(0.1f, 0.35f) * context.Strength * grainPx * surface.MmPerPx;
        var isMist = random.Chance(0.5f);
        var color = isMist ? DrawMist(random, context.Coats.Paint.Albedo) : context.Coats.Paint.Albedo * random.Uniform(1.2f, 1.8f);
        var opacity = isMist ? random.Uniform(0.4f, 0.9f) : random.Uniform(0.05f, 0.3f);
        var threshold = random.Uniform(0.4f, 1.1f);
        var roughness = random.Uniform(0.1f, 0.4f);
        for (var at = 0; at < grain.Values.Length; at++)
        {
            var share = region.Values[at] * Math.Clamp(0.85f + (0.25f * clumps.Values[at]), 0.2f, 1.2f);
            var speck = Ramp.Smooth(threshold, threshold + 0.5f, grain.Values[at]) * share;
            surface.HeightMm.Values[at] += heightMm * share * MathF.Max(-0.3f, grain.Values[at]);
            surface.RoughnessUm.Values[at] += roughness * share;
            surface.Tint(at, color, MathF.Min(0.95f, opacity * speck));
            surface.MarkDefect(at, Ramp.Smooth(0.3f, 0.6f, share));
        }
    }

    private static Rgb DrawMist(PanelRandom random, Rgb paint)
    {
        var color = random.Chance(0.5f) ? Rgb.Display(0.85f, 0.85f, 0.83f) : PaintPalette.Draw(random).Albedo;
        return color.DisplayDistance(paint) > 0.2f ? color : paint.Luminance > 0.3f ? Rgb.Gray(0.06f) : Rgb.Gray(0.6f);
    }
}
