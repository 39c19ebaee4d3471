using CoatScan.DemoPanels.Paint;
using CoatScan.DemoPanels.Surface;
using CoatScan.Metrics;

namespace CoatScan.DemoPanels.Defects;

/// <summary>Mechanical marks: single scratches, sets that run side by side, arcs of swirl, scuffed patches.</summary>
internal static class Scratches
{
    public static void Paint(PanelContext context)
    {
        var random = context.Random;
        var marks = new Plane(context.Width, context.Height);
        var kind = random.Weighted(0.42f, 0.25f, 0.18f, 0.15f);
        switch (kind)
        {
            case 0:
                DrawSingles(context, marks);
                break;
            case 1:
                DrawSet(context, marks);
                break;
            case 2:
                DrawSwirl(context, marks);
                break;
            default:
                DrawScuff(context, marks);
                break;
        }

        if (random.Chance(0.4f))
        {
            Interrupt(context, marks);
        }

        Lay(context, marks, isFine: kind == 2);
    }

    private static void DrawSingles(PanelContext context, Plane marks)
    {
        var random = context.Random;
        var count = (int)random.LogUniform(1f, 6f);
        for (var i = 0; i < count; i++)
        {
            var length = random.LogUniform(i == 0 ? 0.3f : 0.12f, 1.1f) * context.Side;
            var width = random.LogUniform(1.5f, 4.5f) * context.PxScale;
            var line = Stroke.Arc(
                random, random.Uniform(0.2f, 0.8f) * context.Width, random.Uniform(0.2f, 0.8f) * context.Height,
                length, random.Angle(), 0.5f * random.Gaussian(), width, random.Chance(0.3f) ? 0.9f : 0.2f);
            Stroke.Draw(marks, line, random.Uniform(0.75f, 1f));
        }
    }

    private static void DrawSet(PanelContext context, Plane marks)
    {
        var random = context.Random;
        var count = (int)random.LogUniform(4f, 35f);
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

    // Fine scratches of washing show where they lie across the light: as arcs around the lamp's mirror image.
    private static void DrawSwirl(PanelContext context, Plane marks)
    {
        var random = context.Random;
        var x0 = random.Uniform(0.2f, 0.8f) * context.Width;
        var y0 = random.Uniform(0.2f, 0.8f) * context.Height;
        var count = (int)random.LogUniform(90f, 420f);
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

    private static void DrawScuff(PanelContext context, Plane marks)
    {
        var random = context.Random;
        var x0 = random.Uniform(0.3f, 0.7f) * context.Width;
        var y0 = random.Uniform(0.3f, 0.7f) * context.Height;
        var angle = random.Angle();
        var spread = random.LogUniform(0.05f, 0.18f) * context.Side;
        var count = (int)random.LogUniform(30f, 180f);
        var isOneWay = random.Chance(0.7f);
        for (var i = 0; i < count; i++)
        {
            var along = spread * 1.6f * random.Gaussian();
            var across = spread * 0.7f * random.Gaussian();
            var line = Stroke.Arc(
                random, x0 + (along * MathF.Cos(angle)) - (across * MathF.Sin(angle)),
                y0 + (along * MathF.Sin(angle)) + (across * MathF.Cos(angle)), random.LogUniform(0.04f, 0.25f) * context.Side,
                isOneWay ? angle + (0.12f * random.Gaussian()) : random.Angle(), 0.3f * random.Gaussian(),
                random.LogUniform(0.8f, 2.4f) * context.PxScale, 0.15f);
            Stroke.Draw(marks, line, random.Uniform(0.35f, 1f));
        }
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

    private static void Lay(PanelContext context, Plane marks, bool isFine)
    {
        var random = context.Random;
        var surface = context.Surface;
        var paint = context.Coats.Paint.Albedo;
        var isBright = paint.Luminance < 0.45f || random.Chance(0.2f);
        var color = random.Weighted(0.5f, 0.3f, 0.2f) switch
        {
            1 when !isFine => context.Coats.PickBared(random).Albedo,
            2 when !isFine => Rgb.Display(0.35f, 0.25f, 0.16f) * random.Uniform(0.4f, 1.5f),
            _ => isBright ? Rgb.Mix(paint, Rgb.Gray(0.85f), random.Uniform(0.4f, 0.9f)) : paint * random.Uniform(0.2f, 0.5f),
        };
        var coat = new Coat(color, 0f, 0.02f, 0.3f);
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
}
