using CoatScan.DemoPanels.Surface;
using CoatScan.Metrics;

namespace CoatScan.DemoPanels.Defects;

/// <summary>Paint that flowed while wet: tears that end in a bead, and curtains with a thick, hanging lower edge.</summary>
internal static class Runs
{
    public static void Paint(PanelContext context)
    {
        var random = context.Random;
        var rise = new Plane(context.Width, context.Height);
        var width = context.SizePx(3f, 16f, 12f, 44f);
        var tilt = 0.12f * random.Gaussian();
        var kind = random.Weighted(0.45f, 0.25f, 0.3f);
        if (kind != 0)
        {
            Curtain(context, rise, width, tilt);
        }

        if (kind != 1)
        {
            var count = Math.Max(1, (int)random.LogUniform(1f, 9f));
            var startY = random.Uniform(-0.05f, 0.4f) * context.Height;
            for (var i = 0; i < count; i++)
            {
                Tear(context, rise, width * random.LogUniform(0.6f, 1.4f), tilt, startY);
            }
        }

        var slope = random.LogUniform(0.3f, 0.8f) * (0.6f + (0.4f * context.Strength));
        var height = slope * width * context.Surface.MmPerPx * 0.35f;
        for (var at = 0; at < rise.Values.Length; at++)
        {
            context.Surface.HeightMm.Values[at] += height * rise.Values[at];
            context.Surface.MarkDefect(at, Ramp.Smooth(0.06f, 0.25f, rise.Values[at]));
        }
    }

    private static void Tear(PanelContext context, Plane rise, float width, float tilt, float startY)
    {
        var random = context.Random;
        var x0 = random.Uniform(0.08f, 0.92f) * context.Width;
        var y0 = startY + (0.06f * context.Height * random.Gaussian());
        var length = MathF.Max(width * 2.5f, random.LogUniform(0.15f, 0.7f) * context.Height);
        var wander = Noise.Line(random, context.Height, width * 4f);
        var bottom = (int)Math.Min(context.Height, y0 + length + width);
        for (var y = Math.Max(0, (int)y0); y < bottom; y++)
        {
            var along = (y - y0) / length;
            var center = x0 + (tilt * (y - y0)) + (0.25f * width * wander[Math.Clamp(y, 0, wander.Length - 1)]);
            for (var x = Math.Max(0, (int)(center - width)); x < Math.Min(context.Width, center + width); x++)
            {
                // Thin trail that swells toward the bead at its end.
                var trailHalf = width * (0.28f + (0.12f * along));
                var across = (x - center) / trailHalf;
                var trail = along < 1f && MathF.Abs(across) < 1f
                    ? (1f - (across * across)) * Ramp.Smooth(0f, 0.3f, along) * (0.45f + (0.35f * along))
                    : 0f;
                var bx = (x - center) / (0.5f * width);
                var by = (y - (y0 + length - (0.2f * width))) / (0.75f * width);
                var beadShare = 1f - (bx * bx) - (by * by);
                var bead = beadShare > 0f ? MathF.Sqrt(beadShare) : 0f;
                rise[x, y] = MathF.Max(rise[x, y], MathF.Max(trail, bead));
            }
        }
    }

    private static void Curtain(PanelContext context, Plane rise, float width, float tilt)
    {
        var random = context.Random;
        var folds = Math.Max(1, random.Whole(1, 4));
        for (var fold = 0; fold < folds; fold++)
        {
            var y0 = random.Uniform(0.2f, 0.85f) * context.Height;
            var x0 = random.Uniform(0.2f, 0.8f) * context.Width;
            var halfSpan = random.LogUniform(0.18f, 0.7f) * context.Width;
            var edge = Noise.Line(random, context.Width, width * random.Uniform(1.5f, 4f), 2);
            var sag = random.Uniform(0f, 0.25f) * halfSpan;
            for (var x = 0; x < context.Width; x++)
            {
                var across = (x - x0) / halfSpan;
                var present = Ramp.Smooth(1f, 0.75f, MathF.Abs(across));
                if (present <= 0f)
                {
                    continue;
                }

                var lower = y0 + (tilt * (x - x0)) + (edge[x] * width * 0.7f) + (sag * (1f - (across * across)));
                var top = Math.Max(0, (int)(lower - (6f * width)));
                for (var y = top; y < Math.Min(context.Height, lower + (0.4f * width)); y++)
                {
                    // A slow swell from above, a thick roll, a steep lower edge.
                    var above = (lower - y) / width;
                    var roll = above < 0f ? Ramp.Smooth(-0.4f, 0f, above) : 0.35f + (0.65f * MathF.Exp(-above * above * 1.4f));
                    var value = roll * present * Ramp.Smooth(6f, 2f, above);
                    rise[x, y] = MathF.Max(rise[x, y], value);
                }
            }
        }
    }
}
