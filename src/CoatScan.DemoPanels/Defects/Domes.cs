using CoatScan.DemoPanels.Surface;

namespace CoatScan.DemoPanels.Defects;

/// <summary>Blisters: the film stands off in domes of its own color.</summary>
internal static class Domes
{
    public static void Paint(PanelContext context)
    {
        var random = context.Random;
        var surface = context.Surface;
        var radius = context.SizePx(1f, 12f, 9f, 50f);
        var most = Math.Clamp(26000f * context.PxScale * context.PxScale / (radius * radius), 5f, 150f);
        var count = Math.Max(4, (int)random.LogUniform(4f, most));
        var placement = new Placement(random, context.Width, context.Height);
        var slope = random.LogUniform(0.3f, 0.8f) * (0.6f + (0.4f * context.Strength));
        var irregularity = random.Uniform(0.02f, 0.16f);
        var flatness = random.Uniform(0f, 0.8f);
        for (var i = 0; i < count; i++)
        {
            var (x, y) = placement.Next();
            var size = i == 0 ? radius : MathF.Max(5f * context.PxScale, radius * random.LogUniform(0.55f, 1.3f));
            var blob = new Blob(random, x, y, size, irregularity, random.LogUniform(1f, 1.5f), harmonics: 4);
            var isBroken = random.Chance(0.06f);
            Raise(context, blob, slope * size * surface.MmPerPx * 0.55f, flatness, isBroken);
        }
    }

    private static void Raise(PanelContext context, Blob blob, float heightMm, float flatness, bool isBroken)
    {
        var surface = context.Surface;
        var bared = context.Coats.PickBared(context.Random);
        var box = PixelBox.Around(blob.CenterX, blob.CenterY, blob.ReachPx + 2f, context.Width, context.Height);
        for (var y = box.Y0; y < box.Y1; y++)
        {
            for (var x = box.X0; x < box.X1; x++)
            {
                var share = blob.Share(x, y);
                if (share >= 1f)
                {
                    continue;
                }

                var at = (y * surface.Width) + x;
                var inside = 1f - (share * share);

                // Between a cap with a soft foot and a taut bubble with a sharp one.
                var profile = Ramp.Mix(inside * inside, MathF.Sqrt(inside), flatness * 0.6f);
                surface.HeightMm.Values[at] = MathF.Max(
                    surface.HeightMm.Values[at], surface.HeightMm.Values[at] + (heightMm * profile));
                surface.MarkDefect(at, Ramp.Smooth(1f, 0.85f, share));
                if (isBroken)
                {
                    var open = Ramp.Smooth(0.45f, 0.38f, share);
                    surface.Cover(at, bared, open);
                    surface.HeightMm.Values[at] -= heightMm * open;
                }
            }
        }
    }
}
