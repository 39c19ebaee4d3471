using CoatScan.DemoPanels.Surface;
using CoatScan.Metrics;

namespace CoatScan.DemoPanels.Defects;

/// <summary>Cracks that do not close to cells: forking single ones, stars around a blow, short checks side by side.</summary>
internal static class RandomCracks
{
    public static void Paint(PanelContext context)
    {
        var random = context.Random;
        var cracks = new Plane(context.Width, context.Height);
        var curl = random.Weighted(0.5f, 0.2f, 0.3f) switch
        {
            0 => DrawForks(context, cracks),
            1 => DrawStars(context, cracks),
            _ => DrawChecks(context, cracks),
        };
        CrackFilling.Lay(context, cracks, curl);
    }

    private static float DrawForks(PanelContext context, Plane cracks)
    {
        var random = context.Random;
        var count = (int)random.LogUniform(1f, 8f);
        var width = random.LogUniform(1.2f, 4f) * context.PxScale;
        var heading = random.Angle();
        for (var i = 0; i < count; i++)
        {
            var angle = random.Chance(0.5f) ? random.Angle() : heading + (0.3f * random.Gaussian());
            Walk(
                context, cracks, random.Uniform(0.12f, 0.88f) * context.Width, random.Uniform(0.12f, 0.88f) * context.Height,
                angle, random.LogUniform(0.25f, 1f) * context.Side, width, 0);
        }

        return random.Chance(0.6f) ? random.Uniform(3f, 8f) * context.PxScale : 0f;
    }

    private static float DrawStars(PanelContext context, Plane cracks)
    {
        var random = context.Random;
        var width = random.LogUniform(1.2f, 3f) * context.PxScale;
        for (var star = 0; star < random.Whole(1, 4); star++)
        {
            var x = random.Uniform(0.2f, 0.8f) * context.Width;
            var y = random.Uniform(0.2f, 0.8f) * context.Height;
            var rays = random.Whole(4, 10);
            var turn = random.Angle();
            for (var ray = 0; ray < rays; ray++)
            {
                var angle = turn + (2f * MathF.PI * (ray + (0.3f * random.Gaussian())) / rays);
                Walk(context, cracks, x, y, angle, random.LogUniform(0.07f, 0.35f) * context.Side, width, 2);
            }
        }

        return random.Chance(0.4f) ? 3f * context.PxScale : 0f;
    }

    private static void Walk(
        PanelContext context, Plane cracks, float x, float y, float angle, float length, float width, int depth)
    {
        var random = context.Random;
        var step = 5f * context.PxScale;
        var count = (int)(length / step) + 2;
        var points = new StrokePoint[count];
        for (var i = 0; i < count; i++)
        {
            var taper = 1f - (0.75f * i / count);
            points[i] = new StrokePoint(x, y, 0.5f * width * taper * random.Uniform(0.7f, 1.3f));
            angle += 0.32f * random.Gaussian();
            x += step * MathF.Cos(angle);
            y += step * MathF.Sin(angle);
            if (depth < 3 && random.Chance(0.09f))
            {
                var side = random.Chance(0.5f) ? 1f : -1f;
                Walk(
                    context, cracks, x, y, angle + (side * random.Uniform(0.4f, 1.3f)), length * random.Uniform(0.25f, 0.6f),
                    width * taper * 0.75f, depth + 1);
            }
        }

        Stroke.Draw(cracks, points);
    }

    private static float DrawChecks(PanelContext context, Plane cracks)
    {
        var random = context.Random;
        var spacing = context.SizePx(1.5f, 10f, 8f, 40f);
        var aspect = random.LogUniform(6f, 20f);
        var field = context.Field(spacing, 4, 0.6f, random.Chance(0.5f) ? aspect : 1f / aspect);
        var region = context.Region(0.4f);
        var threshold = random.Uniform(1.1f, 1.7f);
        for (var at = 0; at < cracks.Values.Length; at++)
        {
            var value = Ramp.Smooth(threshold, threshold + 0.35f, field.Values[at]) * region.Values[at];
            cracks.Values[at] = MathF.Max(cracks.Values[at], value);
        }

        return random.Chance(0.5f) ? 3f * context.PxScale : 0f;
    }
}
