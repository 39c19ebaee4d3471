using CoatScan.DemoPanels.Paint;
using CoatScan.DemoPanels.Surface;

namespace CoatScan.DemoPanels.Defects;

/// <summary>Dust and grit under the last coat: few small steep grains, now and then a fiber.</summary>
internal static class Nibs
{
    public static void Paint(PanelContext context)
    {
        var random = context.Random;
        var surface = context.Surface;
        var radius = context.SizePx(0.25f, 1.2f, 4.2f, 10f);
        var count = (int)random.LogUniform(7f, 34f);
        var placement = new Placement(random, context.Width, context.Height);
        var slope = random.LogUniform(0.9f, 1.6f) * (0.6f + (0.4f * context.Strength));
        var shows = random.Chance(0.5f) ? random.Uniform(0.2f, 0.8f) : 0f;
        var grainColor = random.Chance(0.5f) ? Rgb.Gray(0.03f) : Rgb.Display(0.75f, 0.7f, 0.6f);
        for (var i = 0; i < count; i++)
        {
            var (x, y) = placement.Next();
            if (i > 0 && random.Chance(0.12f))
            {
                LayFiber(context, x, y, radius);
                continue;
            }

            var size = i == 0 ? radius : MathF.Max(3f * context.PxScale, radius * random.LogUniform(0.7f, 1.3f));
            var blob = new Blob(random, x, y, size, random.Uniform(0.1f, 0.4f), random.LogUniform(1f, 1.7f));
            Raise(context, blob, slope * size * surface.MmPerPx, shows, grainColor);
        }
    }

    private static void Raise(PanelContext context, Blob blob, float heightMm, float shows, Rgb grainColor)
    {
        var surface = context.Surface;

        // The film climbs the grain: a foot wider than the grain itself.
        var foot = blob.ReachPx * 1.8f;
        var box = PixelBox.Around(blob.CenterX, blob.CenterY, foot + 2f, context.Width, context.Height);
        for (var y = box.Y0; y < box.Y1; y++)
        {
            for (var x = box.X0; x < box.X1; x++)
            {
                var share = blob.Share(x, y);
                var at = (y * surface.Width) + x;
                surface.HeightMm.Values[at] += heightMm * ((0.7f * MathF.Exp(-1.5f * share * share)) + (0.3f * MathF.Exp(-0.6f * share * share)));
                surface.MarkDefect(at, Ramp.Smooth(1.9f, 1.4f, share));
                surface.Tint(at, grainColor, shows * Ramp.Smooth(0.9f, 0.5f, share));
            }
        }
    }

    private static void LayFiber(PanelContext context, float x, float y, float radius)
    {
        var random = context.Random;
        var coverage = new Metrics.Plane(context.Width, context.Height);
        var line = Stroke.Arc(
            random, x, y, radius * random.Uniform(6f, 16f), random.Angle(), 2f * random.Gaussian(), MathF.Max(1.5f, radius * 0.5f), 0.3f);
        Stroke.Draw(coverage, line);
        var height = 0.5f * radius * context.Surface.MmPerPx;
        for (var at = 0; at < coverage.Values.Length; at++)
        {
            if (coverage.Values[at] > 0f)
            {
                context.Surface.HeightMm.Values[at] += height * coverage.Values[at];
                context.Surface.MarkDefect(at, coverage.Values[at]);
            }
        }
    }
}
