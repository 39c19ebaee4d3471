using CoatScan.DemoPanels.Surface;

namespace CoatScan.DemoPanels.Clutter;

/// <summary>Bent sheet under sound paint: shallow dents, a pressed-in edge, a long crease of a lean or knock.</summary>
/// <remarks>Damage to the sheet, not to the film: what looks at paint must not call it a blister or a crater.</remarks>
internal static class Dents
{
    public static void Lay(PanelContext context)
    {
        var count = context.Random.Whole(1, 4);
        for (var i = 0; i < count; i++)
        {
            Press(context);
        }
    }

    private static void Press(PanelContext context)
    {
        var random = context.Random;
        var surface = context.Surface;
        var radius = random.LogUniform(0.06f, 0.35f) * context.Side;
        var elongation = random.Chance(0.6f) ? random.LogUniform(1f, 1.6f) : random.LogUniform(2f, 7f);
        var blob = new Blob(
            random, random.Uniform(-0.05f, 1.05f) * context.Width, random.Uniform(-0.05f, 1.05f) * context.Height, radius,
            random.Uniform(0f, 0.25f), elongation, 4);

        // Slope of the flank; a dent is wide and shallow beside a blister or a crater.
        var depthMm = random.LogUniform(0.03f, 0.16f) * radius * surface.MmPerPx * (random.Chance(0.8f) ? -1f : 1f);
        var sharpness = random.Uniform(1.2f, 3f);
        var box = PixelBox.Around(blob.CenterX, blob.CenterY, (blob.ReachPx * 1.8f) + 2f, context.Width, context.Height);
        for (var y = box.Y0; y < box.Y1; y++)
        {
            for (var x = box.X0; x < box.X1; x++)
            {
                var share = blob.Share(x, y);
                surface.HeightMm.Values[(y * surface.Width) + x] += depthMm * MathF.Exp(-MathF.Pow(share / 0.75f, 2f * sharpness / 1.6f));
            }
        }
    }
}
