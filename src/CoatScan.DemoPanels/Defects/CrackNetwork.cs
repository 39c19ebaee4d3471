using CoatScan.DemoPanels.Paint;
using CoatScan.DemoPanels.Surface;
using CoatScan.Metrics;

namespace CoatScan.DemoPanels.Defects;

/// <summary>Cracks: cells with curled edges, forking single cracks, or short parallel checks.</summary>
internal static class CrackNetwork
{
    public static void Paint(PanelContext context)
    {
        var random = context.Random;
        var cracks = new Plane(context.Width, context.Height);
        var curl = random.Weighted(0.55f, 0.3f, 0.15f) switch
        {
            0 => DrawCells(context, cracks),
            1 => DrawForks(context, cracks),
            _ => DrawChecks(context, cracks),
        };
        Fill(context, cracks);
        if (curl > 0f)
        {
            CurlEdges(context, cracks, curl);
        }
    }

    private static float DrawCells(PanelContext context, Plane cracks)
    {
        var random = context.Random;
        var cell = context.SizePx(3f, 40f, 16f, 130f);
        var aspect = random.Chance(0.5f) ? random.LogUniform(1f, 5f) : random.LogUniform(0.8f, 1.3f);
        var angle = random.Angle();
        var width = MathF.Max(0.7f * context.PxScale, cell * random.LogUniform(0.012f, 0.05f));
        var region = context.Region(0.4f);
        var uneven = context.Field(cell, 2);
        AddCells(context, cracks, cell, aspect, angle, width, region, uneven, 0.0f);
        if (random.Chance(0.5f))
        {
            AddCells(context, cracks, cell * random.Uniform(0.35f, 0.6f), aspect, angle, width * 0.6f, region, uneven, 0.45f);
        }

        return random.Chance(0.7f) ? MathF.Max(3f, cell * random.Uniform(0.08f, 0.25f)) : 0f;
    }

    private static void AddCells(
        PanelContext context, Plane cracks, float cell, float aspect, float angle, float width, Plane region, Plane uneven, float gate)
    {
        var cells = CellField.Build(
            context.Random, context.Width, context.Height, cell, aspect, angle, cell * context.Random.Uniform(0.04f, 0.14f));
        for (var at = 0; at < cracks.Values.Length; at++)
        {
            var open = (region.Values[at] - gate) * (1f + (0.45f * uneven.Values[at]));
            var half = width * Math.Clamp(open, 0f, 1.8f);
            if (half > 0.15f)
            {
                var value = Math.Clamp(half + 0.5f - cells.BorderDistancePx.Values[at], 0f, MathF.Min(1f, 2f * half));
                cracks.Values[at] = MathF.Max(cracks.Values[at], value);
            }
        }
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
