using CoatScan.DemoPanels.Paint;
using CoatScan.DemoPanels.Surface;
using CoatScan.Metrics;

namespace CoatScan.DemoPanels.Clutter;

/// <summary>Cooling slits: dark openings side by side, each with a drilled or pressed end.</summary>
internal static class Openings
{
    public static void LaySlits(PanelContext context)
    {
        var random = context.Random;
        var length = context.SizePx(20f, 80f, 40f, 220f);
        var width = context.SizePx(1f, 5f, 3f, 12f);
        var pitch = MathF.Max(width * 2.5f, length * random.Uniform(0.15f, 0.5f));
        var angle = random.Chance(0.5f) ? random.Whole(0, 2) * 0.5f * MathF.PI : random.Angle();
        var (cos, sin) = (MathF.Cos(angle), MathF.Sin(angle));
        var x0 = random.Uniform(0f, 1f) * context.Width;
        var y0 = random.Uniform(0f, 1f) * context.Height;
        var end = random.Chance(0.5f) ? width * random.Uniform(0.8f, 1.3f) : 0.5f * width;
        var ink = new Plane(context.Width, context.Height);
        for (var i = 0; i < random.Whole(2, 7); i++)
        {
            var x = x0 - (i * pitch * sin);
            var y = y0 + (i * pitch * cos);
            var (dx, dy) = (0.5f * length * cos, 0.5f * length * sin);
            Stroke.Draw(ink, [new StrokePoint(x - dx, y - dy, 0.5f * width), new StrokePoint(x + dx, y + dy, 0.5f * width)]);
            Stroke.Draw(ink, [new StrokePoint(x - dx, y - dy, end), new StrokePoint(x - dx + 0.1f, y - dy, end)]);
            Stroke.Draw(ink, [new StrokePoint(x + dx, y + dy, end), new StrokePoint(x + dx + 0.1f, y + dy, end)]);
        }

        var dark = new Coat(Rgb.Gray(random.LogUniform(0.004f, 0.03f)), 0f, 0.005f, 0.5f);
        for (var at = 0; at < ink.Values.Length; at++)
        {
            context.Surface.Cover(at, dark, ink.Values[at]);
        }

        Bend(context, ink, width);
    }

    // The sheet is dented a little around each opening.
    private static void Bend(PanelContext context, Plane ink, float width)
    {
        var near = Blur.Soft(ink, width);
        var depth = context.Random.LogUniform(0.05f, 0.4f) * width * context.Surface.MmPerPx;
        for (var at = 0; at < near.Values.Length; at++)
        {
            context.Surface.HeightMm.Values[at] -= depth * near.Values[at];
        }
    }
}
