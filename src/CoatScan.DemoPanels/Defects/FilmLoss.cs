using CoatScan.DemoPanels.Paint;
using CoatScan.DemoPanels.Surface;
using CoatScan.Metrics;

namespace CoatScan.DemoPanels.Defects;

/// <summary>Peeling: large areas off in one piece or in flakes, stepped edges that lift and throw a shadow.</summary>
internal static class FilmLoss
{
    public static void Paint(PanelContext context)
    {
        var random = context.Random;
        var depth = random.Weighted(0.55f, 0.3f, 0.15f) switch
        {
            0 => DrawPatches(context),
            1 => DrawFlaking(context),
            _ => DrawCells(context),
        };
        var floor = Chips.DrawFloor(context);
        var band = random.LogUniform(2f, 26f) * context.PxScale;
        var loss = new LayeredLoss(floor, band, random.Uniform(0.6f, 1.1f), random.Uniform(1f, 2.5f));
        var tone = context.Field(random.LogUniform(0.02f, 0.2f) * context.Side, 5, 0.62f);
        Chips.Scale(tone, random.Uniform(0.02f, 0.14f));
        LiftEdges(context, depth);
        loss.Remove(context, depth, context.Field(band * 1.5f, 4, 0.6f), tone);
        if (random.Chance(0.4f))
        {
            StainFloor(context, depth);
        }
    }

    private static Plane DrawPatches(PanelContext context)
    {
        var random = context.Random;
        var depth = new Plane(context.Width, context.Height);
        Array.Fill(depth.Values, -200f);
        var count = random.Weighted(0.5f, 0.25f, 0.25f) + 1;
        var radius = random.LogUniform(0.07f, 0.38f) * context.Side;
        var jag = context.Field(radius * 0.6f, 5, 0.6f);
        var jagPx = radius * random.Uniform(0.08f, 0.22f);
        var satellites = random.Chance(0.5f) ? random.Whole(2, 14) : 0;
        var start = random.Chance(0.4f) ? context.Anchors.Pick(random) : null;
        var x0 = start?.X ?? (random.Uniform(0.2f, 0.8f) * context.Width);
        var y0 = start?.Y ?? (random.Uniform(0.2f, 0.8f) * context.Height);
        for (var i = 0; i < count + satellites; i++)
        {
            var isLarge = i < count;
            var size = isLarge ? radius * random.LogUniform(0.6f, 1.1f) : radius * random.LogUniform(0.05f, 0.22f);
            var spread = i == 0 ? 0f : radius * (isLarge ? 1.1f : 1.5f);
            var blob = new Blob(
                random, x0 + (spread * random.Gaussian()), y0 + (spread * random.Gaussian()), size,
                random.Uniform(0.25f, 0.65f), random.LogUniform(1f, 3f));
            for (var y = 0; y < context.Height; y++)
            {
                for (var x = 0; x < context.Width; x++)
                {
                    var dx = x - blob.CenterX;
                    var dy = y - blob.CenterY;
                    var reach = blob.ReachPx + (3f * jagPx);
                    if ((dx * dx) + (dy * dy) < reach * reach)
                    {
                        var inside = (jagPx * jag[x, y] * (isLarge ? 1f : 0.4f)) - blob.DistancePx(x, y);
                        depth[x, y] = MathF.Max(depth[x, y], inside);
                    }
                }
            }
        }

        return depth;
    }

    private static Plane DrawFlaking(PanelContext context)
    {
        var random = context.Random;
        var cell = random.LogUniform(0.1f, 0.45f) * context.Side;
        var field = context.Field(cell, 6, random.Uniform(0.48f, 0.62f), random.LogUniform(0.5f, 2f));
        var x0 = random.Uniform(0.2f, 0.8f) * context.Width;
        var y0 = random.Uniform(0.2f, 0.8f) * context.Height;
        var pull = random.Uniform(0.3f, 1.4f);
        var threshold = random.Uniform(0.1f, 1f);
        for (var y = 0; y < context.Height; y++)
        {
            for (var x = 0; x < context.Width; x++)
            {
                var dx = (x - x0) / context.Side;
                var dy = (y - y0) / context.Side;
                var value = field[x, y] + (0.9f * pull) - (pull * 3f * ((dx * dx) + (dy * dy))) - threshold;

                // The field's slope turns its value into a rough distance to the outline.
                field[x, y] = value * cell * 0.35f;
            }
        }

        return field;
    }

    private static Plane DrawCells(PanelContext context)
    {
        var random = context.Random;
        var cell = random.LogUniform(0.05f, 0.2f) * context.Side;
        var cells = CellField.Build(
            random, context.Width, context.Height, cell, random.LogUniform(1f, 2f), random.Angle(), cell * 0.1f);
        var where = context.Field(context.Side * 0.4f, 2);
        var depth = new Plane(context.Width, context.Height);
        var threshold = random.Uniform(0f, 0.8f);
        for (var at = 0; at < depth.Values.Length; at++)
        {
            // One draw per cell, tied to its number; the slow field makes neighbors fall together.
            var draw = new PanelRandom((ulong)cells.Cell[at] + 77UL).Uniform(-0.5f, 0.5f);
            var isLost = where.Values[at] + draw > threshold;
            var distance = cells.BorderDistancePx.Values[at];
            depth.Values[at] = isLost ? distance + 1f : -distance;
        }

        return depth;
    }

    private static void LiftEdges(PanelContext context, Plane depth)
    {
        var random = context.Random;
        var width = random.LogUniform(2.5f, 14f) * context.PxScale;
        var lift = random.LogUniform(0.08f, 0.7f) * width * context.Surface.MmPerPx;
        var where = context.Field(context.Side * 0.15f, 2);
        for (var at = 0; at < depth.Values.Length; at++)
        {
            var outside = -depth.Values[at] / width;
            if (outside is > -1f and < 2f)
            {
                var rim = outside < 0f ? 0f : (1f - (0.5f * outside)) * (1f - (0.5f * outside));
                context.Surface.HeightMm.Values[at] += lift * rim * Ramp.Smooth(-0.6f, 1f, where.Values[at]);
            }
        }
    }

    private static void StainFloor(PanelContext context, Plane depth)
    {
        var random = context.Random;
        var field = context.Field(context.Side * 0.15f, 5, 0.6f);
        var threshold = random.Uniform(0.2f, 1.2f);
        var color = random.Chance(0.5f)
            ? Rgb.Display(0.4f, 0.33f, 0.25f) * random.Uniform(0.5f, 1.3f)
            : context.Coats.PickBared(random).Albedo;
        for (var at = 0; at < depth.Values.Length; at++)
        {
            var inside = Ramp.Smooth(0f, 4f, depth.Values[at]);
            context.Surface.Tint(at, color, 0.6f * inside * Ramp.Smooth(threshold, threshold + 0.8f, field.Values[at]));
        }
    }
}
