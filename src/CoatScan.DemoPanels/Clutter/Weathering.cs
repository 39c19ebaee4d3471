using CoatScan.DemoPanels.Surface;
using CoatScan.Metrics;

namespace CoatScan.DemoPanels.Clutter;

/// <summary>Traces of years on a working finish that is still sound: brush or roller grain, rain streaks, rubbed spots.</summary>
internal static class Weathering
{
    public static void Lay(PanelContext context)
    {
        var random = context.Random;
        if (random.Chance(0.6f))
        {
            Shade(context, context.Field(random.LogUniform(1.5f, 5f) * context.PxScale, 3, 0.7f), random.LogUniform(0.006f, 0.04f));
        }

        if (random.Chance(0.5f))
        {
            var aspect = random.LogUniform(8f, 40f);
            var isDown = random.Chance(0.75f);
            Shade(
                context, context.Field(random.LogUniform(8f, 60f) * context.PxScale, 4, 0.65f, isDown ? 1f / aspect : aspect),
                random.LogUniform(0.01f, 0.07f));
        }

        if (random.Chance(0.4f))
        {
            LayGrain(context);
        }

        if (random.Chance(0.4f))
        {
            LayRubs(context);
        }
    }

    private static void Shade(PanelContext context, Plane field, float amount)
    {
        for (var at = 0; at < field.Values.Length; at++)
        {
            context.Surface.SetAlbedo(at, context.Surface.Albedo(at) * MathF.Max(0.4f, 1f + (amount * field.Values[at])));
        }
    }

    // Film laid by brush or roller keeps a fine relief.
    private static void LayGrain(PanelContext context)
    {
        var random = context.Random;
        var cell = MathF.Max(1.6f, random.LogUniform(1.6f, 5f) * context.PxScale);
        var field = context.Field(cell, 2, 0.6f, random.Chance(0.5f) ? 1f : random.LogUniform(2f, 10f));
        var heightMm = random.LogUniform(0.004f, 0.035f) * cell * context.Surface.MmPerPx;
        for (var at = 0; at < field.Values.Length; at++)
        {
            context.Surface.HeightMm.Values[at] += heightMm * field.Values[at];
        }
    }

    private static void LayRubs(PanelContext context)
    {
        var random = context.Random;
        var field = context.Field(random.LogUniform(0.08f, 0.3f) * context.Side, 4, 0.6f);
        var threshold = random.Uniform(0.6f, 1.6f);
        var opacity = random.LogUniform(0.03f, 0.1f);
        var tone = context.Coats.Paint.Albedo * random.Uniform(0.6f, 1.5f);
        for (var at = 0; at < field.Values.Length; at++)
        {
            context.Surface.Tint(at, tone, opacity * Ramp.Smooth(threshold, threshold + 0.8f, field.Values[at]));
        }
    }
}
