using CoatScan.DemoPanels.Surface;
using CoatScan.Metrics;

namespace CoatScan.DemoPanels.Defects;

/// <summary>Fine scratches of washing and polishing: arcs around the lamp's mirror image, or overlapping loops of a machine.</summary>
internal static class Swirl
{
    public static void Paint(PanelContext context)
    {
        var random = context.Random;
        var marks = new Plane(context.Width, context.Height);
        if (random.Chance(0.7f))
        {
            DrawHalo(context, marks);
        }
        else
        {
            DrawLoops(context, marks);
        }

        ScratchFilling.Lay(context, marks, isFine: true);
    }

    // Scratches in all directions show where they lie across the light: as arcs around the lamp's mirror image.
    private static void DrawHalo(PanelContext context, Plane marks)
    {
        var random = context.Random;
        var x0 = random.Uniform(0.2f, 0.8f) * context.Width;
        var y0 = random.Uniform(0.2f, 0.8f) * context.Height;
        var count = (int)random.LogUniform(110f, 450f);
        for (var i = 0; i < count; i++)
        {
            var angle = random.Angle();
            var radius = (0.04f + (0.75f * MathF.Sqrt(random.Uniform()))) * context.Side;
            var length = random.LogUniform(0.08f, 0.35f) * context.Side;
            var line = Stroke.Arc(
                random, x0 + (radius * MathF.Cos(angle)), y0 + (radius * MathF.Sin(angle)), length,
                angle + (0.5f * MathF.PI) + (0.12f * random.Gaussian()), MathF.Min(3f, length / radius),
                random.Uniform(0.8f, 1.4f) * context.PxScale, 0.1f);
            Stroke.Draw(marks, line, random.Uniform(0.25f, 0.9f) * Ramp.Smooth(0.9f * context.Side, 0.2f * context.Side, radius));
        }
    }

    private static void DrawLoops(PanelContext context, Plane marks)
    {
        var random = context.Random;
        var loop = random.LogUniform(0.06f, 0.2f) * context.Side;
        var heading = random.Angle();
        for (var pass = 0; pass < random.Whole(2, 7); pass++)
        {
            var x = random.Uniform(-0.1f, 0.6f) * context.Width;
            var y = random.Uniform(0.1f, 0.9f) * context.Height;
            var count = random.Whole(25, 70);
            for (var i = 0; i < count; i++)
            {
                x += 0.16f * loop * MathF.Cos(heading);
                y += 0.16f * loop * MathF.Sin(heading);
                var line = Stroke.Arc(
                    random, x + (0.15f * loop * random.Gaussian()), y + (0.15f * loop * random.Gaussian()), loop * random.Uniform(2.5f, 5f),
                    random.Angle(), random.Uniform(3f, 5.5f), random.Uniform(0.8f, 1.3f) * context.PxScale, 0.05f);
                Stroke.Draw(marks, line, random.Uniform(0.3f, 0.85f));
            }
        }
    }
}
