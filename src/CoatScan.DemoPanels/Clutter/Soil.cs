using CoatScan.DemoPanels.Paint;
using CoatScan.DemoPanels.Surface;

namespace CoatScan.DemoPanels.Clutter;

/// <summary>What lies on paint without harming it: dust, specks, water marks, warm stains along edges, wiping traces.</summary>
internal static class Soil
{
    public static void Lay(PanelContext context)
    {
        var random = context.Random;
        if (random.Chance(0.35f))
        {
            LaySpecks(context);
        }

        if (random.Chance(0.25f))
        {
            LayStreaks(context);
        }

        if (random.Chance(0.3f))
        {
            LayStains(context);
        }

        if (random.Chance(0.25f))
        {
            LayDust(context);
        }
    }

    // Loose specks are smaller than anything that counts as a fault at the same distance.
    private static void LaySpecks(PanelContext context)
    {
        var random = context.Random;
        var count = (int)random.LogUniform(8f, 140f);
        var color = Earth(random);
        for (var i = 0; i < count; i++)
        {
            var radius = random.LogUniform(0.5f, 1.5f) * context.PxScale;
            var x = random.Uniform() * context.Width;
            var y = random.Uniform() * context.Height;
            var opacity = random.Uniform(0.15f, 0.7f);
            var box = PixelBox.Around(x, y, radius + 1f, context.Width, context.Height);
            for (var py = box.Y0; py < box.Y1; py++)
            {
                for (var px = box.X0; px < box.X1; px++)
                {
                    var distance = MathF.Sqrt(((px - x) * (px - x)) + ((py - y) * (py - y)));
                    context.Surface.Tint((py * context.Width) + px, color, opacity * Math.Clamp(radius + 0.5f - distance, 0f, 1f));
                }
            }
        }
    }

    private static void LayStreaks(PanelContext context)
    {
        var random = context.Random;
        var isDown = random.Chance(0.8f);
        var field = context.Field(random.LogUniform(10f, 50f) * context.PxScale, 4, 0.6f, isDown ? 1f / 16f : 16f);
        var color = random.Chance(0.5f) ? Earth(random) : Rgb.Gray(random.Uniform(0.2f, 0.7f));
        var opacity = random.LogUniform(0.03f, 0.18f);
        for (var at = 0; at < field.Values.Length; at++)
        {
            context.Surface.Tint(at, color, opacity * Ramp.Smooth(-0.2f, 2f, field.Values[at]));
        }
    }

    private static void LayStains(PanelContext context)
    {
        var random = context.Random;
        var field = context.Field(random.LogUniform(0.06f, 0.5f) * context.Side, 4, 0.55f);
        var color = Earth(random);
        var opacity = random.LogUniform(0.06f, 0.25f);
        var threshold = random.Uniform(0f, 1.2f);
        var softness = random.LogUniform(1.2f, 3f);
        for (var at = 0; at < field.Values.Length; at++)
        {
            context.Surface.Tint(at, color, opacity * Ramp.Smooth(threshold, threshold + softness, field.Values[at]));
        }
    }

    private static void LayDust(PanelContext context)
    {
        var random = context.Random;
        var coarse = context.Field(context.Side * 0.4f, 3);
        var fine = context.Field(2f * context.PxScale, 1);
        var color = Rgb.Mix(Earth(random), Rgb.Gray(0.45f), 0.6f);
        var opacity = random.LogUniform(0.02f, 0.1f);
        for (var at = 0; at < fine.Values.Length; at++)
        {
            var share = Math.Clamp(0.6f + (0.3f * coarse.Values[at]) + (0.3f * fine.Values[at]), 0f, 1.5f);
            context.Surface.Tint(at, color, opacity * share);
        }
    }

    private static Rgb Earth(PanelRandom random) => random.Weighted(0.5f, 0.3f, 0.2f) switch
    {
        0 => Rgb.Display(0.5f, 0.38f, 0.26f) * random.Uniform(0.3f, 1.4f),
        1 => Rgb.Gray(random.LogUniform(0.02f, 0.2f)),
        _ => Rgb.Display(0.62f, 0.42f, 0.22f) * random.Uniform(0.4f, 1.3f),
    };
}
