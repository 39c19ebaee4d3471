using CoatScan.DemoPanels.Clutter;
using CoatScan.DemoPanels.Paint;
using CoatScan.DemoPanels.Surface;
using CoatScan.Metrics;

namespace CoatScan.DemoPanels.Scenes;

/// <summary>Printed pages, screens, faces, plates of food.</summary>
internal static class Things
{
    public static void PaintPage(Canvas canvas)
    {
        var random = canvas.Random;
        var table = Rgb.Hue(random.Uniform(), random.Uniform(0f, 0.5f), random.Uniform(0.1f, 0.6f));
        var grain = canvas.Field(canvas.Side * 0.1f, 4);
        canvas.Fill((x, y) => table * (1f + (0.08f * grain[x, y])));
        var margin = random.Uniform(-0.05f, 0.15f) * canvas.Side;
        var paper = new Rgb(0.8f, 0.79f, 0.75f) * random.Uniform(0.8f, 1.05f);
        canvas.Box(margin, margin, canvas.Width - margin, canvas.Height - margin, paper);
        var ink = new Plane(canvas.Width, canvas.Height);
        var glyphs = new Glyphs(random);
        var size = canvas.Side * random.LogUniform(0.018f, 0.06f);
        var angle = 0.05f * random.Gaussian();
        var left = margin + (0.06f * canvas.Side);
        var columns = (int)((canvas.Width - (2f * left)) / (size * 0.75f));
        var lines = (int)((canvas.Height - (2f * left)) / (size * 1.7f));
        for (var line = 0; line < lines; line++)
        {
            if (random.Chance(0.08f))
            {
                continue;
            }

            var length = random.Chance(0.2f) ? (int)(columns * random.Uniform(0.2f, 0.8f)) : columns;
            for (var i = 0; i < length; i++)
            {
                if (!random.Chance(0.17f))
                {
                    glyphs.Draw(ink, random, i * size * 0.75f, line * size * 1.7f, size, size * 0.1f, left, left, angle);
                }
            }
        }

        canvas.Print(ink, Rgb.Gray(0.03f));
        if (random.Chance(0.4f))
        {
            var x = random.Uniform(0.2f, 0.5f) * canvas.Width;
            var y = random.Uniform(0.2f, 0.6f) * canvas.Height;
            canvas.Box(x, y, x + (0.3f * canvas.Width), y + (0.25f * canvas.Height), Rgb.Hue(random.Uniform(), 0.5f, 0.7f));
        }
    }

    public static void PaintScreen(Canvas canvas)
    {
        var random = canvas.Random;
        var isDark = random.Chance(0.5f);
        var back = isDark ? Rgb.Gray(random.Uniform(0.01f, 0.04f)) : Rgb.Gray(random.Uniform(0.7f, 0.95f));
        canvas.Fill((_, _) => back);
        var accent = random.Uniform();
        var count = random.Whole(5, 25);
        for (var i = 0; i < count; i++)
        {
            var x = MathF.Round(random.Uniform(0f, 8f)) / 8f * canvas.Width;
            var y = MathF.Round(random.Uniform(0f, 10f)) / 10f * canvas.Height;
            var color = random.Chance(0.5f)
                ? Rgb.Hue(accent + (0.1f * random.Gaussian()), random.Uniform(0.3f, 0.9f), random.Uniform(0.3f, 1f))
                : Rgb.Gray(random.Uniform(0.02f, 0.9f));
            canvas.Box(x, y, x + (random.Uniform(0.05f, 0.4f) * canvas.Width), y + (random.Uniform(0.02f, 0.25f) * canvas.Height), color);
        }

        var ink = new Plane(canvas.Width, canvas.Height);
        var glyphs = new Glyphs(random);
        for (var line = 0; line < 14; line++)
        {
            var size = canvas.Side * random.Uniform(0.02f, 0.05f);
            var letters = random.Whole(4, 24);
            var x = random.Uniform(0.02f, 0.5f) * canvas.Width;
            var y = random.Uniform(0.02f, 0.95f) * canvas.Height;
            for (var i = 0; i < letters; i++)
            {
                glyphs.Draw(ink, random, i * size * 0.75f, 0f, size, size * 0.11f, x, y, 0f);
            }
        }

        canvas.Print(ink, isDark ? Rgb.Gray(0.85f) : Rgb.Gray(0.02f));
        var frame = random.Uniform(0f, 0.08f) * canvas.Side;
        var bezel = Rgb.Gray(0.01f);
        canvas.Box(0f, 0f, canvas.Width, frame, bezel);
        canvas.Box(0f, canvas.Height - frame, canvas.Width, canvas.Height, bezel);
        canvas.Box(0f, 0f, frame, canvas.Height, bezel);
        canvas.Box(canvas.Width - frame, 0f, canvas.Width, canvas.Height, bezel);
    }

    public static void PaintFace(Canvas canvas)
    {
        var random = canvas.Random;
        var wall = canvas.Field(canvas.Side * 0.3f, 3);
        var back = Rgb.Hue(random.Uniform(), random.Uniform(0.05f, 0.5f), random.Uniform(0.2f, 0.9f));
        canvas.Fill((x, y) => back * MathF.Max(0.3f, 1f + (0.12f * wall[x, y])));
        var skin = Rgb.Display(0.85f, 0.66f, 0.54f) * random.LogUniform(0.15f, 1.1f);
        var hair = Rgb.Display(0.25f, 0.16f, 0.1f) * random.LogUniform(0.2f, 2.5f);
        var x0 = random.Uniform(0.4f, 0.6f) * canvas.Width;
        var y0 = random.Uniform(0.4f, 0.55f) * canvas.Height;
        var size = canvas.Side * random.Uniform(0.22f, 0.42f);
        var pores = canvas.Field(size * 0.05f, 3, 0.6f);
        Oval(canvas, x0, y0 - (0.25f * size), size * 1.12f, size * 1.2f, (_, _) => hair);
        Oval(canvas, x0, y0 + (1.5f * size), size * 1.7f, size * 0.8f, (_, _) => Rgb.Hue(random.Uniform(), 0.5f, 0.5f));
        Oval(canvas, x0, y0 + size, size * 0.4f, size * 0.5f, (_, _) => skin * 0.75f);
        Oval(canvas, x0, y0, size * 0.8f, size * 1.1f, (u, v) => skin * (1f - (0.35f * ((u * u) + (v * v))) + (0.15f * u)));
        foreach (var side in (ReadOnlySpan<float>)[-1f, 1f])
        {
            var ex = x0 + (side * 0.32f * size);
            Oval(canvas, ex, y0 - (0.15f * size), size * 0.15f, size * 0.075f, (_, _) => Rgb.Gray(0.7f));
            Oval(canvas, ex, y0 - (0.15f * size), size * 0.065f, size * 0.07f, (_, _) => Rgb.Gray(0.02f));
            Oval(canvas, ex, y0 - (0.32f * size), size * 0.2f, size * 0.035f, (_, _) => hair);
        }

        Oval(canvas, x0 + (0.04f * size), y0 + (0.15f * size), size * 0.1f, size * 0.2f, (u, _) => skin * (0.85f - (0.15f * u)));
        Oval(canvas, x0, y0 + (0.52f * size), size * 0.27f, size * 0.08f, (_, v) => new Rgb(skin.R * 0.75f, skin.G * 0.45f, skin.B * 0.45f) * (v < 0f ? 0.8f : 1f));
        for (var at = 0; at < pores.Values.Length; at++)
        {
            canvas.Image[at] *= 1f + (0.03f * pores.Values[at]);
        }
    }

    public static void PaintPlate(Canvas canvas)
    {
        var random = canvas.Random;
        var cloth = canvas.Field(canvas.Side * 0.1f, 4, 0.6f, random.LogUniform(1f, 20f));
        var table = Rgb.Hue(random.Uniform(), random.Uniform(0.1f, 0.6f), random.Uniform(0.15f, 0.8f));
        canvas.Fill((x, y) => table * MathF.Max(0.2f, 1f + (0.12f * cloth[x, y])));
        var x0 = random.Uniform(0.4f, 0.6f) * canvas.Width;
        var y0 = random.Uniform(0.4f, 0.6f) * canvas.Height;
        var radius = canvas.Side * random.Uniform(0.33f, 0.5f);
        var china = Rgb.Gray(random.Uniform(0.5f, 0.85f));
        Oval(canvas, x0 + (0.03f * radius), y0 + (0.06f * radius), radius * 1.03f, radius * 1.03f, (_, _) => table * 0.35f);
        Oval(canvas, x0, y0, radius, radius, (u, v) =>
        {
            var r = MathF.Sqrt((u * u) + (v * v));
            return china * (1f + (0.1f * (u + v)) - (r is > 0.66f and < 0.72f ? 0.2f : 0f));
        });
        var pieces = random.Whole(12, 90);
        var kinds = random.Whole(2, 5);
        var hues = new float[kinds];
        for (var i = 0; i < kinds; i++)
        {
            hues[i] = random.Pick(0.02f, 0.06f, 0.1f, 0.14f, 0.28f, 0.33f);
        }

        var texture = canvas.Field(radius * 0.08f, 4, 0.65f);
        for (var i = 0; i < pieces; i++)
        {
            var reach = 0.6f * radius * MathF.Sqrt(random.Uniform());
            var angle = random.Angle();
            var piece = new Blob(
                random, x0 + (reach * MathF.Cos(angle)), y0 + (reach * MathF.Sin(angle)), radius * random.LogUniform(0.05f, 0.2f),
                random.Uniform(0.1f, 0.5f), random.LogUniform(1f, 3f));
            var color = Rgb.Hue(hues[random.Whole(0, kinds)], random.Uniform(0.4f, 0.9f), random.Uniform(0.3f, 0.9f));
            canvas.Fill(piece, 1f, (x, y, share) => color * MathF.Max(0.1f, 1.1f - (0.5f * share * share) + (0.2f * texture[x, y])));
        }
    }

    // The color sees the place inside the oval, -1 to 1 along both axes.
    private static void Oval(Canvas canvas, float x0, float y0, float halfX, float halfY, Func<float, float, Rgb> color)
    {
        var soft = 1.2f / MathF.Min(halfX, halfY);
        for (var y = Math.Max(0, (int)(y0 - halfY - 2f)); y < Math.Min(canvas.Height, y0 + halfY + 2f); y++)
        {
            for (var x = Math.Max(0, (int)(x0 - halfX - 2f)); x < Math.Min(canvas.Width, x0 + halfX + 2f); x++)
            {
                var u = (x - x0) / halfX;
                var v = (y - y0) / halfY;
                var coverage = Ramp.Smooth(1f + soft, 1f - soft, MathF.Sqrt((u * u) + (v * v)));
                if (coverage > 0f)
                {
                    canvas.Image.Over((y * canvas.Width) + x, color(u, v), coverage);
                }
            }
        }
    }
}
