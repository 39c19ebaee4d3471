using CoatScan.DemoPanels.Surface;

namespace CoatScan.DemoPanels.Defects;

/// <summary>Skin that swelled over a soft layer and puckered: winding folds with narrow creases.</summary>
internal static class Wrinkles
{
    public static void Paint(PanelContext context)
    {
        var random = context.Random;
        var fold = context.SizePx(1.5f, 9f, 8f, 36f);
        var aspect = random.LogUniform(1f, 3.5f);
        if (random.Chance(0.5f))
        {
            aspect = 1f / aspect;
        }

        // Sines of a strongly bent coordinate wind like folds do; the bend is several folds wide.
        var bendX = context.Field(fold * random.Uniform(1.2f, 2.2f), 2, 0.5f, aspect);
        var bendY = context.Field(fold * 4f, 2, 0.5f);
        var bendPx = random.Uniform(2.5f, 5f);
        var slope = random.LogUniform(0.3f, 0.9f) * (0.6f + (0.4f * context.Strength));
        var height = slope * fold * context.Surface.MmPerPx * 0.16f;
        var region = context.Region(0.3f);
        for (var at = 0; at < region.Values.Length; at++)
        {
            var share = region.Values[at];
            if (share <= 0f)
            {
                continue;
            }

            var phase = (bendX.Values[at] * bendPx) + (bendY.Values[at] * 2f);
            var wave = MathF.Abs(MathF.Sin(phase));

            // |sin| has round ridges and sharp creases; the root sharpens the creases further.
            context.Surface.HeightMm.Values[at] += height * share * MathF.Sqrt(wave + 0.02f) * (1f + (0.4f * bendY.Values[at]));
            context.Surface.MarkDefect(at, Ramp.Smooth(0.2f, 0.5f, share));
        }
    }
}
