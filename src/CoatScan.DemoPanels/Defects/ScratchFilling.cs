using CoatScan.DemoPanels.Paint;
using CoatScan.DemoPanels.Surface;
using CoatScan.Metrics;

namespace CoatScan.DemoPanels.Defects;

/// <summary>What a scratch lays bare: roughened paint, another coat, dirt; with a groove.</summary>
internal static class ScratchFilling
{
    /// <param name="context">The panel.</param>
    /// <param name="marks">Coverage by scratches, [0, 1].</param>
    /// <param name="isFine">Whether they stay in the outermost film.</param>
    public static void Lay(PanelContext context, Plane marks, bool isFine)
    {
        if (context.Random.Chance(0.4f))
        {
            Interrupt(context, marks);
        }

        var random = context.Random;
        var surface = context.Surface;
        var coat = new Coat(DrawColor(context, isFine), 0f, 0.02f, 0.3f);
        var opacity = MathF.Min(1f, (isFine ? random.Uniform(0.25f, 0.6f) : random.Uniform(0.7f, 1f)) * context.Strength);
        var depth = random.LogUniform(0.15f, 0.8f) * surface.MmPerPx * 0.6f;
        for (var at = 0; at < marks.Values.Length; at++)
        {
            var value = marks.Values[at];
            if (value <= 0f)
            {
                continue;
            }

            surface.Cover(at, coat, value * opacity);
            surface.HeightMm.Values[at] -= depth * value;
            surface.MarkDefect(at, value * 1.6f);
        }
    }

    private static Rgb DrawColor(PanelContext context, bool isFine)
    {
        var random = context.Random;
        var paint = context.Coats.Paint.Albedo;
        var isBright = paint.Luminance < 0.45f || random.Chance(0.2f);
        return random.Weighted(0.5f, 0.3f, 0.2f) switch
        {
            1 when !isFine => context.Coats.PickBared(random).Albedo,
            2 when !isFine => Rgb.Display(0.35f, 0.25f, 0.16f) * random.Uniform(0.4f, 1.5f),
            _ => isBright ? Rgb.Mix(paint, Rgb.Gray(0.85f), random.Uniform(0.4f, 0.9f)) : paint * random.Uniform(0.2f, 0.5f),
        };
    }

    private static void Interrupt(PanelContext context, Plane marks)
    {
        var gaps = context.Field(context.Random.LogUniform(8f, 40f) * context.PxScale, 3);
        var threshold = context.Random.Uniform(-1.6f, -0.9f);
        for (var at = 0; at < marks.Values.Length; at++)
        {
            marks.Values[at] *= Ramp.Smooth(threshold, threshold + 0.5f, gaps.Values[at]);
        }
    }
}
