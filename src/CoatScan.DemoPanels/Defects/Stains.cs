using CoatScan.DemoPanels.Paint;
using CoatScan.DemoPanels.Surface;

namespace CoatScan.DemoPanels.Defects;

/// <summary>Flat or sunken marks in the film: etched and bleached spots, stains that bled through, runs of dirty water.</summary>
internal static class Stains
{
    public static void Paint(PanelContext context)
    {
        if (context.Random.Chance(0.3f))
        {
            PaintCloud(context);
        }
        else
        {
            PaintSpots(context);
        }
    }

    private static void PaintSpots(PanelContext context)
    {
        var random = context.Random;
        var paint = context.Coats.Paint.Albedo;
        var radius = context.SizePx(4f, 26f, 14f, 80f);
        var look = random.Weighted(3f, 2.5f, 2f) switch
        {
            0 => new SpotLook(paint * random.Uniform(0.35f, 0.6f), 0.8f, 0.12f, -0.03f, 0.04f, 0.5f, random.Uniform(0.35f, 0.8f)),
            1 => new SpotLook(Rgb.Mix(paint, Rgb.Gray(0.7f), random.Uniform(0.45f, 0.75f)), 0.9f, 0.1f, 0f, 0.035f, 0.45f, random.Uniform(0.35f, 0.9f)),
            _ => new SpotLook(DrawTint(random), random.Uniform(0.6f, 0.9f), 0.05f, 0f, 0.04f, 0.45f, random.Uniform(0.35f, 0.9f)),
        };
        var painter = new SpotPainter(context, look, radius);
        var count = SpotPainter.DrawCount(context, radius);
        var placement = new Placement(random, context.Width, context.Height);
        var irregularity = random.Uniform(0.15f, 0.55f);
        for (var i = 0; i < count; i++)
        {
            var (x, y) = placement.Next();
            var size = i == 0 ? radius : MathF.Max(6f * context.PxScale, radius * random.LogUniform(0.5f, 1.4f));
            painter.Lay(new Blob(random, x, y, size, irregularity, random.LogUniform(1f, 1.7f), 7), random.Uniform(0.75f, 1f));
        }
    }

    private static void PaintCloud(PanelContext context)
    {
        var random = context.Random;
        var surface = context.Surface;
        var aspect = random.Chance(0.5f) ? 1f : 1f / random.LogUniform(2f, 8f);
        var field = context.Field(random.LogUniform(0.06f, 0.25f) * context.Side, 5, 0.6f, aspect);
        var region = context.Region(0.1f);
        var threshold = random.Uniform(0.3f, 1.1f);
        var softness = random.LogUniform(0.15f, 0.6f);
        var color = random.Chance(0.6f) ? DrawTint(random) : context.Coats.Paint.Albedo * random.Uniform(0.35f, 0.65f);
        var opacity = MathF.Min(0.9f, random.Uniform(0.5f, 0.75f) * context.Strength);
        for (var at = 0; at < field.Values.Length; at++)
        {
            var share = Ramp.Smooth(threshold, threshold + softness, field.Values[at]) * region.Values[at];
            surface.Tint(at, color, opacity * share);
            surface.MarkDefect(at, Ramp.Smooth(0.2f, 0.5f, share));
        }
    }

    // What seeps or is left behind by water: brown, yellow, gray green, violet red of old pigment.
    private static Rgb DrawTint(PanelRandom random) => random.Weighted(3f, 2f, 1.5f, 1f) switch
    {
        0 => Rgb.Display(0.42f, 0.32f, 0.22f) * random.Uniform(0.4f, 1.4f),
        1 => Rgb.Display(0.72f, 0.62f, 0.36f) * random.Uniform(0.5f, 1.2f),
        2 => Rgb.Display(0.36f, 0.38f, 0.32f) * random.Uniform(0.3f, 1.3f),
        _ => Rgb.Display(0.55f, 0.24f, 0.3f) * random.Uniform(0.5f, 1.2f),
    };
}
