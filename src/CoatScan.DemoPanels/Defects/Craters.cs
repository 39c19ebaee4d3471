using CoatScan.DemoPanels.Surface;

namespace CoatScan.DemoPanels.Defects;

/// <summary>Bowls with a raised lip, where the wet film drew back.</summary>
internal static class Craters
{
    public static void Paint(PanelContext context)
    {
        var random = context.Random;
        var radius = context.SizePx(1f, 5f, 8.5f, 36f);
        var most = Math.Clamp(24000f * context.PxScale * context.PxScale / (radius * radius), 5f, 120f);
        var count = Math.Max(4, (int)random.LogUniform(4f, most));
        var placement = new Placement(random, context.Width, context.Height);
        var slope = random.LogUniform(0.4f, 1f) * (0.6f + (0.4f * context.Strength));
        var baresCenter = random.Chance(0.5f) ? random.Uniform(0.2f, 0.45f) : 0f;
        for (var i = 0; i < count; i++)
        {
            var (x, y) = placement.Next();
            var size = i == 0 ? radius : MathF.Max(4.5f * context.PxScale, radius * random.LogUniform(0.6f, 1.3f));
            Sink(context, new Blob(random, x, y, size, random.Uniform(0f, 0.1f), random.LogUniform(1f, 1.2f)), slope, baresCenter);
        }
    }

    private static void Sink(PanelContext context, Blob blob, float slope, float baresCenter)
    {
        var surface = context.Surface;
        var bared = context.Coats.Coats[1];
        var scale = slope * blob.RadiusPx * surface.MmPerPx;
        var box = PixelBox.Around(blob.CenterX, blob.CenterY, (blob.ReachPx * 1.7f) + 2f, context.Width, context.Height);
        for (var y = box.Y0; y < box.Y1; y++)
        {
            for (var x = box.X0; x < box.X1; x++)
            {
                var share = blob.Share(x, y);
                if (share > 1.7f)
                {
                    continue;
                }

                var at = (y * surface.Width) + x;
                var bowl = MathF.Exp(-MathF.Pow(share / 0.62f, 3f));
                var lip = (share - 1f) / 0.26f;
                surface.HeightMm.Values[at] += scale * ((0.3f * MathF.Exp(-lip * lip)) - (0.55f * bowl));
                if (baresCenter > 0f)
                {
                    var center = Ramp.Smooth(baresCenter + 0.1f, baresCenter - 0.05f, share);
                    surface.Cover(at, bared, center);
                }

                surface.MarkDefect(at, Ramp.Smooth(1.35f, 1.1f, share));
            }
        }
    }
}
