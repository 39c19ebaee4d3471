using CoatScan.DemoPanels.Paint;
using CoatScan.DemoPanels.Surface;

namespace CoatScan.DemoPanels.Defects;

/// <summary>Closed outlines left by drops that dried or bit at their rim; the inside stays much like the paint around.</summary>
internal static class Rings
{
    public static void Paint(PanelContext context)
    {
        var random = context.Random;
        var radius = context.SizePx(2.5f, 16f, 9f, 75f);
        var most = Math.Clamp(30000f * context.PxScale * context.PxScale / (radius * radius), 3f, 60f);
        var count = Math.Max(2, (int)random.LogUniform(2f, most));
        var placement = new Placement(random, context.Width, context.Height);
        var paint = context.Coats.Paint.Albedo;
        var pale = random.Chance(paint.Luminance > 0.5f ? 0.15f : 0.75f);
        var color = pale
            ? Rgb.Mix(paint, Rgb.Display(0.92f, 0.91f, 0.88f), random.Uniform(0.5f, 0.95f))
            : paint * random.Uniform(0.25f, 0.6f) * (random.Chance(0.3f) ? new Rgb(1.2f, 0.95f, 0.7f) : Rgb.Gray(1f));
        var width = MathF.Max(2f * context.PxScale, radius * random.LogUniform(0.08f, 0.22f));
        var irregularity = random.Uniform(0.01f, 0.22f);
        var depth = random.Uniform(-0.12f, 0.06f);
        var texture = context.Field(MathF.Max(4f, radius * 0.7f), 3, 0.6f);
        for (var i = 0; i < count; i++)
        {
            var (x, y) = placement.Next();
            var size = i == 0 ? radius : MathF.Max(7f * context.PxScale, radius * random.LogUniform(0.5f, 1.3f));
            var blob = new Blob(random, x, y, size, irregularity, random.LogUniform(1f, 1.25f));
            var inner = random.Chance(0.2f) ? random.Uniform(0.5f, 0.75f) : 0f;
            Lay(context, blob, color, width, inner, depth, random.Uniform(0f, 0.12f), texture);
        }
    }

    private static void Lay(
        PanelContext context, Blob blob, Rgb color, float width, float innerShare, float slope, float fill, Metrics.Plane texture)
    {
        var surface = context.Surface;
        var box = PixelBox.Around(blob.CenterX, blob.CenterY, blob.ReachPx + (2f * width) + 2f, context.Width, context.Height);
        var ridge = slope * width * surface.MmPerPx;
        for (var y = box.Y0; y < box.Y1; y++)
        {
            for (var x = box.X0; x < box.X1; x++)
            {
                var at = (y * surface.Width) + x;
                var distance = blob.DistancePx(x, y);
                var rim = Profile(distance, width);
                if (innerShare > 0f)
                {
                    rim = MathF.Max(rim, 0.7f * Profile(distance + (blob.RadiusPx * innerShare), width * 0.7f));
                }

                // A rim of uneven strength, yet never broken: the class is the closed outline.
                var strength = Math.Clamp(0.75f + (0.25f * texture.Values[at]), 0.4f, 1f);
                var opacity = MathF.Min(1f, rim * strength * (0.75f + (0.25f * context.Strength)));
                surface.Tint(at, color, MathF.Max(opacity, distance < 0f ? fill : 0f));
                surface.RoughnessUm.Values[at] += 0.2f * opacity;
                surface.HeightMm.Values[at] += ridge * rim;
                surface.MarkDefect(at, rim * 1.6f);
            }
        }
    }

    private static float Profile(float distance, float width) =>
        distance < 0f ? Ramp.Smooth(-width * 1.3f, -width * 0.3f, distance) : Ramp.Smooth(width * 0.6f, 0f, distance);
}
