using CoatScan.DemoPanels.Paint;
using CoatScan.DemoPanels.Surface;
using CoatScan.Metrics;

namespace CoatScan.DemoPanels.Clutter;

/// <summary>Things on sound paint that no panel for training carries: a cable, a round sticker, slanted stripes, the shadow of a fence.</summary>
internal static class ShiftedThings
{
    private const float Share = 0.3f;

    public static void Lay(PanelContext context)
    {
        foreach (var lay in new Action<PanelContext>[] { LayStripes, LaySticker, LayFence, LayCable })
        {
            if (context.Random.Chance(Share))
            {
                lay(context);
            }
        }
    }

    private static void LayCable(PanelContext context)
    {
        var random = context.Random;
        var surface = context.Surface;
        var points = Stroke.Arc(
            random, random.Uniform(0.2f, 0.8f) * context.Width, random.Uniform(0.2f, 0.8f) * context.Height, 1.6f * context.Side,
            random.Angle(), random.Uniform(0.5f, 2.5f), random.Uniform(6f, 14f) * context.PxScale, 0f);
        var cable = new Plane(context.Width, context.Height);
        var shadow = new Plane(context.Width, context.Height);
        Stroke.Draw(cable, points);
        var shift = random.Uniform(5f, 14f) * context.PxScale;
        Stroke.Draw(shadow, [.. points.Select(point => point with { X = point.X + shift, Y = point.Y + (0.6f * shift) })]);
        var coat = new Coat(Rgb.Gray(random.LogUniform(0.01f, 0.5f)), 0f, 0.04f, 0.3f);
        for (var at = 0; at < cable.Values.Length; at++)
        {
            surface.Light.Values[at] *= 1f - (0.5f * shadow.Values[at]);
            surface.Cover(at, coat, cable.Values[at]);
        }
    }

    private static void LaySticker(PanelContext context)
    {
        var random = context.Random;
        var radius = random.Uniform(0.08f, 0.2f) * context.Side;
        var x = random.Uniform() * context.Width;
        var y = random.Uniform() * context.Height;
        Coat[] rings =
        [
            Film(Rgb.Hue(random.Uniform(), 0.8f, 0.9f)), Film(Rgb.Gray(0.8f)), Film(Rgb.Hue(random.Uniform(), 0.9f, 0.5f)),
        ];
        var box = PixelBox.Around(x, y, radius + 1f, context.Width, context.Height);
        for (var py = box.Y0; py < box.Y1; py++)
        {
            for (var px = box.X0; px < box.X1; px++)
            {
                var distance = MathF.Sqrt(((px - x) * (px - x)) + ((py - y) * (py - y)));
                var ring = Math.Min(rings.Length - 1, (int)(distance / radius * rings.Length));
                context.Surface.Cover((py * context.Width) + px, rings[ring], Math.Clamp(radius + 0.5f - distance, 0f, 1f));
            }
        }
    }

    private static void LayStripes(PanelContext context)
    {
        var random = context.Random;
        var top = random.Uniform(0f, 0.8f) * context.Height;
        var height = random.Uniform(0.1f, 0.2f) * context.Height;
        var period = random.Uniform(0.08f, 0.16f) * context.Side;
        var dark = Film(Rgb.Gray(0.02f));
        var light = Film(Rgb.Hue(random.Uniform(), random.Uniform(0f, 0.9f), 0.95f));
        for (var y = (int)top; y < Math.Min(context.Height, (int)(top + height)); y++)
        {
            for (var x = 0; x < context.Width; x++)
            {
                var phase = (x + y) / period;
                context.Surface.Cover((y * context.Width) + x, phase - MathF.Floor(phase) < 0.5f ? dark : light, 1f);
            }
        }
    }

    private static void LayFence(PanelContext context)
    {
        var random = context.Random;
        var (cos, sin) = (MathF.Cos(random.Angle()), MathF.Sin(random.Angle()));
        var period = random.Uniform(0.12f, 0.3f) * context.Side;
        var half = period * random.Uniform(0.06f, 0.12f);
        var loss = random.Uniform(0.2f, 0.45f);
        for (var y = 0; y < context.Height; y++)
        {
            for (var x = 0; x < context.Width; x++)
            {
                var wire = MathF.Min(ToLine((x * cos) + (y * sin), period), ToLine((y * cos) - (x * sin), period));
                context.Surface.Light[x, y] *= 1f - (loss * Ramp.Smooth(half + 1f, half - 1f, wire));
            }
        }
    }

    private static float ToLine(float along, float period)
    {
        var phase = along - (period * MathF.Floor(along / period));
        return MathF.Min(phase, period - phase);
    }

    private static Coat Film(Rgb color) => new(color, 0.1f, 0.045f, 0.08f);
}
