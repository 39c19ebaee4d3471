using CoatScan.DemoPanels.Paint;
using CoatScan.DemoPanels.Surface;

namespace CoatScan.DemoPanels.Defects;

/// <summary>Tiny open holes with sharp rims, many together: trapped solvent or air that broke out.</summary>
internal static class Pits
{
    public static void Paint(PanelContext context)
    {
        var random = context.Random;
        var radius = context.SizePx(0.2f, 0.9f, 2f, 4.5f);
        var count = (int)random.LogUniform(40f, 320f);
        var placement = new Placement(random, context.Width, context.Height);
        var slope = random.LogUniform(0.5f, 1.2f) * (0.6f + (0.4f * context.Strength));
        var darkness = random.Uniform(0.7f, 0.97f);
        for (var i = 0; i < count; i++)
        {
            var (x, y) = placement.Next();
            var size = i == 0 ? radius : MathF.Max(1.7f * context.PxScale, radius * random.LogUniform(0.55f, 1.2f));
            Open(context, new Blob(random, x, y, size, random.Uniform(0f, 0.15f), random.LogUniform(1f, 1.2f)), slope, darkness);
        }
    }

    private static void Open(PanelContext context, Blob blob, float slope, float darkness)
    {
        var surface = context.Surface;

        // On black a hole shows its pale floor or dust, not its shadow.
        var floor = context.Coats.Paint.Albedo.Luminance < 0.04f ? Rgb.Gray(0.3f) : context.Coats.Paint.Albedo * 0.12f;
        var scale = slope * blob.RadiusPx * surface.MmPerPx;
        var box = PixelBox.Around(blob.CenterX, blob.CenterY, (blob.ReachPx * 1.6f) + 2f, context.Width, context.Height);
        for (var y = box.Y0; y < box.Y1; y++)
        {
            for (var x = box.X0; x < box.X1; x++)
            {
                var share = blob.Share(x, y);
                if (share > 1.6f)
                {
                    continue;
                }

                var at = (y * surface.Width) + x;
                var rim = (share - 1.1f) / 0.22f;
                surface.HeightMm.Values[at] += scale * ((0.12f * MathF.Exp(-rim * rim)) - (0.8f * MathF.Exp(-MathF.Pow(share / 0.8f, 4f))));
                surface.Tint(at, floor, darkness * Ramp.Smooth(0.95f, 0.55f, share));
                surface.MarkDefect(at, Ramp.Smooth(1.5f, 1.2f, share));
            }
        }
    }
}
