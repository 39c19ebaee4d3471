using CoatScan.DemoPanels.Paint;
using CoatScan.DemoPanels.Surface;
using CoatScan.Metrics;

namespace CoatScan.DemoPanels.Defects;

/// <summary>What shows in a crack and beside it: shadow, undercoat or dirt inside, a stain around, edges that lift.</summary>
internal static class CrackFilling
{
    /// <param name="context">The panel.</param>
    /// <param name="cracks">Coverage by cracks, [0, 1].</param>
    /// <param name="curlPx">Reach of lifted edges, pixels; 0 for none.</param>
    public static void Lay(PanelContext context, Plane cracks, float curlPx)
    {
        Fill(context, cracks);
        if (curlPx > 0f)
        {
            CurlEdges(context, cracks, curlPx);
        }
    }

    private static void Fill(PanelContext context, Plane cracks)
    {
        var random = context.Random;
        var surface = context.Surface;
        var paint = context.Coats.Paint.Albedo;
        var inside = random.Weighted(0.6f, 0.25f, 0.15f) switch
        {
            0 => new Coat(paint * random.Uniform(0.04f, 0.3f), 0f, 0.01f, 0.5f),
            1 => context.Coats.PickBared(random),
            _ => new Coat(Rgb.Display(0.3f, 0.2f, 0.12f) * random.Uniform(0.4f, 1.4f), 0f, 0.01f, 0.5f),
        };
        if (paint.Luminance < 0.04f)
        {
            // A dark gap does not show on black: light undercoat or dust does.
            inside = new Coat(Rgb.Gray(random.Uniform(0.2f, 0.5f)), 0f, 0.01f, 0.5f);
        }

        var stain = random.Chance(0.35f) ? Blur.Soft(cracks, random.LogUniform(2f, 8f) * context.PxScale) : null;
        var stainColor = Rgb.Display(0.42f, 0.32f, 0.22f) * random.Uniform(0.4f, 1.2f);
        var depth = random.LogUniform(0.3f, 1.2f) * 0.5f * surface.MmPerPx;
        for (var at = 0; at < cracks.Values.Length; at++)
        {
            if (stain is not null)
            {
                surface.Tint(at, stainColor, 0.35f * Ramp.Smooth(0.05f, 0.5f, stain.Values[at]));
            }

            var value = MathF.Min(1f, cracks.Values[at] * context.Strength);
            surface.Cover(at, inside, value);
            surface.HeightMm.Values[at] -= depth * value;
            surface.MarkDefect(at, cracks.Values[at] * 1.5f);
        }
    }

    private static void CurlEdges(PanelContext context, Plane cracks, float reachPx)
    {
        var near = Blur.Soft(cracks, reachPx);
        var lift = context.Random.LogUniform(0.1f, 0.6f) * reachPx * context.Surface.MmPerPx;
        for (var at = 0; at < near.Values.Length; at++)
        {
            context.Surface.HeightMm.Values[at] += lift * MathF.Min(0.6f, near.Values[at]) * (1f - cracks.Values[at]);
        }
    }
}
