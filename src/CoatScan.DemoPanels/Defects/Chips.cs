using CoatScan.DemoPanels.Paint;
using CoatScan.DemoPanels.Surface;
using CoatScan.Metrics;

namespace CoatScan.DemoPanels.Defects;

/// <summary>Small areas knocked out of the film by stones or blows, single or in clusters, with sharp layered edges.</summary>
internal static class Chips
{
    public static void Paint(PanelContext context)
    {
        var random = context.Random;
        var radius = context.SizePx(1.2f, 9f, 7.5f, 36f);
        var most = Math.Clamp(9000f * context.PxScale * context.PxScale / (radius * radius), 3f, 60f);
        var count = Math.Max(2, (int)random.LogUniform(2f, most));
        var placement = new Placement(random, context.Width, context.Height, context.Anchors);
        var depth = new Plane(context.Width, context.Height);
        Array.Fill(depth.Values, -100f);
        var jag = context.Field(MathF.Max(3f, radius * 0.5f), 4, 0.65f);
        var irregularity = random.Uniform(0.25f, 0.8f);
        for (var i = 0; i < count; i++)
        {
            var (x, y) = placement.Next();
            var size = i == 0 ? radius : MathF.Max(3f * context.PxScale, radius * random.LogUniform(0.35f, 1.1f));
            var blob = new Blob(random, x, y, size, irregularity, random.LogUniform(1f, 2f));
            Stamp(depth, blob, jag, size * random.Uniform(0.1f, 0.4f));
        }

        var floor = DrawFloor(context);
        var loss = new LayeredLoss(
            floor, MathF.Max(1f * context.PxScale, radius * random.LogUniform(0.08f, 0.35f)), 0.7f, random.Uniform(1f, 2.5f));
        var ragged = context.Field(MathF.Max(3f, radius * 0.6f), 3, 0.6f);
        var tone = context.Field(MathF.Max(4f, radius * 0.8f), 4, 0.6f);
        Scale(tone, random.Uniform(0.03f, 0.12f));
        loss.Remove(context, depth, ragged, tone);
        if (random.Chance(0.2f))
        {
            StainCenters(context, depth, ragged, radius);
        }
    }

    /// <summary>An innermost bared coat whose tone differs from the paint's, so that the chip can be seen.</summary>
    internal static int DrawFloor(PanelContext context)
    {
        var coats = context.Coats.Coats;
        for (var i = 0; i < 8; i++)
        {
            var floor = context.Random.Whole(1, coats.Count);
            if (coats[floor].Albedo.DisplayDistance(context.Coats.Paint.Albedo) > 0.15f)
            {
                return floor;
            }
        }

        return coats.Count - 1;
    }

    internal static void Scale(Plane plane, float factor)
    {
        foreach (ref var value in plane.Values.AsSpan())
        {
            value *= factor;
        }
    }

    private static void Stamp(Plane depth, Blob blob, Plane jag, float jagPx)
    {
        var box = PixelBox.Around(blob.CenterX, blob.CenterY, blob.ReachPx + (4f * jagPx) + 3f, depth.Width, depth.Height);
        for (var y = box.Y0; y < box.Y1; y++)
        {
            for (var x = box.X0; x < box.X1; x++)
            {
                var inside = (jagPx * jag[x, y]) - blob.DistancePx(x, y);
                depth[x, y] = MathF.Max(depth[x, y], inside);
            }
        }
    }

    // Bared steel starts to rust in the middle: still a chip as long as the spot is small.
    private static void StainCenters(PanelContext context, Plane depth, Plane ragged, float radius)
    {
        var rust = new Coat(Rgb.Display(0.45f, 0.25f, 0.12f) * context.Random.Uniform(0.5f, 1.2f), 0f, 0.01f, 0.6f);
        for (var at = 0; at < depth.Values.Length; at++)
        {
            var core = Ramp.Smooth(0.45f * radius, 0.8f * radius, depth.Values[at]) * Ramp.Smooth(0f, 1f, ragged.Values[at]);
            context.Surface.Cover(at, rust, 0.7f * core);
        }
    }
}
