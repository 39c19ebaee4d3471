using CoatScan.DemoPanels.Surface;
using CoatScan.Metrics;

namespace CoatScan.DemoPanels.Defects;

/// <summary>Scratches that run side by side: a scrape along a wall, a brush, sanding marks, a rubbed patch.</summary>
internal static class ParallelScratches
{
    public static void Paint(PanelContext context)
    {
        var random = context.Random;
        var marks = new Plane(context.Width, context.Height);
        if (random.Chance(0.6f))
        {
            DrawSet(context, marks);
        }
        else
        {
            DrawScuff(context, marks);
        }

        ScratchFilling.Lay(context, marks, isFine: false);
    }

    private static void DrawSet(PanelContext context, Plane marks)
    {
        var random = context.Random;
        var count = (int)random.LogUniform(5f, 35f);
        var angle = random.Angle();
        var turn = 0.4f * random.Gaussian();
        var x0 = random.Uniform(0.3f, 0.7f) * context.Width;
        var y0 = random.Uniform(0.3f, 0.7f) * context.Height;
        var spread = random.LogUniform(0.03f, 0.2f) * context.Side;
        var length = random.LogUniform(0.2f, 0.9f) * context.Side;
        for (var i = 0; i < count; i++)
        {
            var across = spread * random.Gaussian();
            var along = 0.12f * length * random.Gaussian();
            var line = Stroke.Arc(
                random, x0 + (along * MathF.Cos(angle)) - (across * MathF.Sin(angle)),
                y0 + (along * MathF.Sin(angle)) + (across * MathF.Cos(angle)), length * random.LogUniform(0.4f, 1.2f),
                angle + (0.04f * random.Gaussian()), turn, random.LogUniform(0.9f, 2.8f) * context.PxScale, 0.15f);
            Stroke.Draw(marks, line, random.Uniform(0.4f, 1f));
        }
    }

    private static void DrawScuff(PanelContext context, Plane marks)
    {
        var random = context.Random;
        var x0 = random.Uniform(0.3f, 0.7f) * context.Width;
        var y0 = random.Uniform(0.3f, 0.7f) * context.Height;
        var angle = random.Angle();
        var spread = random.LogUniform(0.05f, 0.18f) * context.Side;
        var count = (int)random.LogUniform(30f, 180f);
        for (var i = 0; i < count; i++)
        {
            var along = spread * 1.6f * random.Gaussian();
            var across = spread * 0.7f * random.Gaussian();
            var line = Stroke.Arc(
                random, x0 + (along * MathF.Cos(angle)) - (across * MathF.Sin(angle)),
                y0 + (along * MathF.Sin(angle)) + (across * MathF.Cos(angle)), random.LogUniform(0.04f, 0.25f) * context.Side,
                angle + (0.12f * random.Gaussian()), 0.3f * random.Gaussian(), random.LogUniform(0.8f, 2.4f) * context.PxScale, 0.15f);
            Stroke.Draw(marks, line, random.Uniform(0.35f, 1f));
        }
    }
}
