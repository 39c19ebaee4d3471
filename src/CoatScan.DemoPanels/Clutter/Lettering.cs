using CoatScan.DemoPanels.Paint;
using CoatScan.DemoPanels.Surface;
using CoatScan.Metrics;

namespace CoatScan.DemoPanels.Clutter;

/// <summary>Stenciled marks in letters that no alphabet has, painted bands, arrows and circles.</summary>
internal static class Lettering
{
    public static void LayWords(PanelContext context)
    {
        var random = context.Random;
        var ink = new Plane(context.Width, context.Height);
        var size = context.SizePx(6f, 45f, 8f, 70f);
        var lines = random.Whole(1, 4);
        var angle = random.Chance(0.7f) ? 0.08f * random.Gaussian() : random.Angle();
        var x0 = random.Uniform(-0.1f, 0.8f) * context.Width;
        var y0 = random.Uniform(0.05f, 0.9f) * context.Height;
        var weight = size * random.Uniform(0.1f, 0.2f);
        var glyphs = new Glyphs(random);
        for (var line = 0; line < lines; line++)
        {
            var letters = random.Whole(3, 14);
            for (var i = 0; i < letters; i++)
            {
                if (random.Chance(0.12f))
                {
                    continue;
                }

                glyphs.Draw(
                    ink, random, i * size * 0.75f, line * size * 1.5f, size, weight, x0, y0, angle);
            }
        }

        Print(context, ink, random.Chance(0.5f) ? random.Uniform(0.05f, 0.6f) : 0f);
    }

    /// <summary>A band or field of another color, as on liveries.</summary>
    public static void LayBand(PanelContext context)
    {
        var random = context.Random;
        var angle = random.Angle();
        var cos = MathF.Cos(angle);
        var sin = MathF.Sin(angle);
        var offset = (cos * random.Uniform(0.1f, 0.9f) * context.Width) + (sin * random.Uniform(0.1f, 0.9f) * context.Height);
        var half = random.Chance(0.5f) ? random.LogUniform(0.02f, 0.2f) * context.Side : 4f * context.Side;
        var bend = random.Chance(0.6f) ? 0f : 0.6f * random.Gaussian() / context.Side;
        var color = DrawOtherColor(random, context.Coats.Paint.Albedo);
        var film = random.Uniform(0f, 0.08f);
        var shift = half > context.Side ? half : 0f;
        for (var y = 0; y < context.Height; y++)
        {
            for (var x = 0; x < context.Width; x++)
            {
                var across = (x * cos) + (y * sin) - offset;
                var along = (y * cos) - (x * sin);
                var inside = half - MathF.Abs(across - shift + (bend * along * along));
                var coverage = Ramp.Smooth(-0.7f, 0.7f, inside);
                var at = (y * context.Width) + x;
                context.Surface.Tint(at, color, coverage);
                context.Surface.HeightMm.Values[at] += film * coverage;
            }
        }
    }

    // Two tones that were meant differ so much that nobody takes them for a mismatch.
    private static Rgb DrawOtherColor(PanelRandom random, Rgb paint)
    {
        var color = PaintPalette.Draw(random).Albedo;
        for (var attempt = 0; attempt < 12 && color.DisplayDistance(paint) < 0.45f; attempt++)
        {
            color = PaintPalette.Draw(random).Albedo;
        }

        return color;
    }

    private static void Print(PanelContext context, Plane ink, float wear)
    {
        var random = context.Random;
        var paint = context.Coats.Paint.Albedo;
        var color = paint.Luminance > 0.3f
            ? random.Chance(0.75f) ? Rgb.Gray(random.LogUniform(0.01f, 0.05f)) : Rgb.Display(0.7f, 0.12f, 0.1f)
            : random.Chance(0.75f) ? Rgb.Gray(random.Uniform(0.5f, 0.85f)) : Rgb.Display(0.9f, 0.75f, 0.2f);
        var worn = wear > 0f ? context.Field(8f * context.PxScale, 4, 0.65f) : null;
        for (var at = 0; at < ink.Values.Length; at++)
        {
            if (ink.Values[at] > 0f)
            {
                var kept = worn is null ? 1f : 1f - (wear * Ramp.Smooth(-0.3f, 0.9f, worn.Values[at]));
                context.Surface.Tint(at, color, ink.Values[at] * kept);
            }
        }
    }
}
