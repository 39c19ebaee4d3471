using CoatScan.DemoPanels.Paint;
using CoatScan.DemoPanels.Surface;

namespace CoatScan.DemoPanels.Defects;

/// <summary>
/// Two neighbors of nearly one color: a repainted part beside the old one, at a gap or at a tape edge. Two-tone cars, whose
/// colors differ much more, are sound.
/// </summary>
internal static class ColorDifference
{
    public static void Paint(PanelContext context)
    {
        var surface = context.Surface;
        var ratio = DrawRatio(context);
        var (side, near) = DrawSide(context);
        for (var at = 0; at < side.Values.Length; at++)
        {
            var color = surface.Albedo(at);
            var share = side.Values[at];
            surface.SetAlbedo(
                at,
                new Rgb(
                    color.R * Ramp.Mix(1f, ratio.R, share), color.G * Ramp.Mix(1f, ratio.G, share), color.B * Ramp.Mix(1f, ratio.B, share))
                .Clamp(0.003f, 0.95f));
            surface.MarkDefect(at, share * near.Values[at]);
        }
    }

    // A fifth to a half more or less light, and always some change of hue, or it would look like a shadow's edge: seen by anyone who
    // looks, less than any two-tone finish.
    private static Rgb DrawRatio(PanelContext context)
    {
        var random = context.Random;
        var luminance = context.Coats.Paint.Albedo.Luminance;
        var change = random.Uniform(0.1f, 0.35f) * MathF.Min(1.5f, context.Strength);
        var isLighter = luminance < 0.04f || (luminance < 0.6f && random.Chance(0.5f));
        var level = isLighter ? change : -change;
        var warmth = random.Uniform(0.2f, 0.4f) * (random.Chance(0.5f) ? 1f : -1f);
        var green = 0.1f * random.Gaussian();

        // On nearly black paint only a plain step up shows at all.
        var lift = luminance < 0.02f ? 0.7f : 0f;
        return new Rgb(MathF.Exp(level + lift + warmth), MathF.Exp(level + lift + green), MathF.Exp(level + lift - warmth));
    }

    // How far each point lies on the other side, and whether it lies near enough to the border for an eye to compare.
    private static (Metrics.Plane Side, Metrics.Plane Near) DrawSide(PanelContext context)
    {
        var random = context.Random;
        var side = new Metrics.Plane(context.Width, context.Height);
        var kind = random.Weighted(0.8f, 0.2f);
        var gap = kind == 0 ? random.Uniform(3f, 9f) * context.PxScale : 0f;
        const float softness = 0.7f;
        var near = new Metrics.Plane(context.Width, context.Height);
        var compared = softness + (0.22f * context.Side);
        var angle = random.Chance(0.6f) ? random.Whole(0, 4) * 0.5f * MathF.PI + (0.07f * random.Gaussian()) : random.Angle();
        var cos = MathF.Cos(angle);
        var sin = MathF.Sin(angle);
        var offset = (cos * context.Width * random.Uniform(0.3f, 0.7f)) + (sin * context.Height * random.Uniform(0.3f, 0.7f));
        var bend = 0.15f * random.Gaussian() / context.Side;
        var depthMm = gap * context.Surface.MmPerPx;
        for (var y = 0; y < context.Height; y++)
        {
            for (var x = 0; x < context.Width; x++)
            {
                var along = (y * cos) - (x * sin) - (0.5f * ((context.Height * cos) - (context.Width * sin)));
                var distance = (x * cos) + (y * sin) - offset + (bend * along * along);
                side[x, y] = Ramp.Smooth(-softness, softness, distance);
                near[x, y] = Ramp.Smooth(compared + 2f, compared, distance);
                if (gap > 0f && MathF.Abs(distance) < gap)
                {
                    Open(context, (y * context.Width) + x, 1f - MathF.Abs(distance / gap), depthMm);
                }
            }
        }

        return (side, near);
    }

    private static void Open(PanelContext context, int at, float share, float depthMm)
    {
        context.Surface.HeightMm.Values[at] -= depthMm * Ramp.Smooth(0f, 0.6f, share);
        context.Surface.SetAlbedo(at, context.Surface.Albedo(at) * (1f - (0.9f * Ramp.Smooth(0.25f, 0.55f, share))));
    }
}
