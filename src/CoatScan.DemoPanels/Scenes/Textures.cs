using CoatScan.DemoPanels.Paint;
using CoatScan.DemoPanels.Surface;

namespace CoatScan.DemoPanels.Scenes;

/// <summary>Pictures filled from edge to edge by one texture: strokes (lawn, straw, fur), heaps of things, stripes, static.</summary>
internal static class Textures
{
    public static void PaintStrokes(Canvas canvas)
    {
        var random = canvas.Random;
        var hue = random.Uniform();
        var spread = random.LogUniform(0.01f, 0.08f);
        var strength = random.Uniform(0f, 0.7f);
        var ground = Rgb.Hue(hue, strength, random.Uniform(0.08f, 0.4f));
        canvas.Fill((_, _) => ground);
        var length = canvas.Side * random.LogUniform(0.04f, 0.3f);
        var width = MathF.Max(0.8f, canvas.Side * random.LogUniform(0.002f, 0.012f));
        var count = (int)Math.Min(6000f, random.Uniform(1f, 2.5f) * canvas.Width * canvas.Height / (length * width));
        var lie = random.Angle();
        var disorder = random.LogUniform(0.1f, 1.5f);
        var whirl = canvas.Field(canvas.Side * random.Uniform(0.2f, 0.8f), 2);
        var tones = canvas.Field(canvas.Side * random.Uniform(0.1f, 0.5f), 3);
        for (var i = 0; i < count; i++)
        {
            var x = random.Uniform(-0.05f, 1.05f) * canvas.Width;
            var y = random.Uniform(-0.05f, 1.05f) * canvas.Height;
            var at = (X: Math.Clamp((int)x, 0, canvas.Width - 1), Y: Math.Clamp((int)y, 0, canvas.Height - 1));
            var angle = lie + (0.8f * whirl[at.X, at.Y]) + (disorder * 0.5f * random.Gaussian());
            var bend = 0.3f * random.Gaussian();
            var tone = MathF.Max(0.1f, 1f + (0.25f * tones[at.X, at.Y]) + (0.3f * random.Gaussian()));
            var color = Rgb.Hue(hue + (spread * random.Gaussian()), strength, Math.Clamp(0.45f * tone, 0.05f, 1f));
            DrawStroke(canvas, (x, y), angle, bend, length * random.Uniform(0.5f, 1.2f), width * random.Uniform(0.6f, 1.5f), color);
        }
    }

    public static void PaintHeap(Canvas canvas)
    {
        var random = canvas.Random;
        var floor = Rgb.Hue(random.Uniform(), random.Uniform(0f, 0.4f), random.Uniform(0.1f, 0.7f));
        canvas.Fill((_, _) => floor);
        var count = (int)random.LogUniform(40f, 700f);
        var size = canvas.Side * random.Uniform(0.7f, 1.3f) / MathF.Sqrt(count);
        var isMotley = random.Chance(0.6f);
        var hue = random.Uniform();
        var ragged = random.LogUniform(0.02f, 0.25f);
        for (var i = 0; i < count; i++)
        {
            // The later, the nearer: the lower in the picture and the larger.
            var near = i / (float)count;
            var thing = new Blob(
                random, random.Uniform() * canvas.Width, ((0.7f * near) + (0.3f * random.Uniform())) * canvas.Height,
                size * (0.6f + (0.7f * near)) * random.LogUniform(0.6f, 1.3f), ragged, random.LogUniform(1f, 2.5f));
            var color = Rgb.Hue(
                isMotley ? random.Uniform() : hue + (0.04f * random.Gaussian()), random.Uniform(0f, 0.8f), random.Uniform(0.1f, 0.9f));
            canvas.Fill(thing, 1f, (x, y, share) => color * MathF.Max(
                0.2f, 1.1f - (0.5f * share * share) + (0.2f * (thing.CenterY - y) / thing.ReachPx) + (0.1f * (thing.CenterX - x) / thing.ReachPx)));
            if (random.Chance(0.4f))
            {
                var mark = new Blob(random, thing.CenterX, thing.CenterY - (0.3f * thing.ReachPx), 0.35f * thing.ReachPx, 0.1f);
                var other = Rgb.Hue(random.Uniform(), random.Uniform(0f, 0.6f), random.Uniform(0.05f, 0.95f));
                canvas.Fill(mark, 1f, (_, _, share) => other * (1f - (0.3f * share)));
            }
        }
    }

    public static void PaintStripes(Canvas canvas)
    {
        var random = canvas.Random;
        var palette = new Rgb[random.Whole(2, 6)];
        var isGray = random.Chance(0.25f);
        for (var i = 0; i < palette.Length; i++)
        {
            palette[i] = Rgb.Hue(random.Uniform(), isGray ? 0f : random.Uniform(0f, 0.9f), random.Uniform(0.03f, 0.97f));
        }

        var angle = random.Chance(0.6f) ? random.Pick(0f, MathF.PI / 2f) : random.Angle();
        var (cos, sin) = (MathF.Cos(angle), MathF.Sin(angle));
        var along = Edges(random, canvas.Side);
        var across = random.Chance(0.4f) ? Edges(random, canvas.Side) : null;
        var bend = canvas.Field(canvas.Side * 0.5f, 2);
        var waviness = random.Chance(0.3f) ? canvas.Side * random.LogUniform(0.003f, 0.05f) : 0f;
        var grain = canvas.Field(canvas.Side * 0.01f, 2);
        var roughness = random.Uniform(0f, 0.08f);
        canvas.Fill((x, y) =>
        {
            var u = (x * cos) + (y * sin) + (waviness * bend[x, y]);
            var v = (y * cos) - (x * sin);
            var index = Position(along, u) + (across is null ? 0 : Position(across, v));
            return palette[index % palette.Length] * (1f + (roughness * grain[x, y]));
        });
    }

    public static void PaintStatic(Canvas canvas)
    {
        var random = canvas.Random;
        var cell = random.Chance(0.5f) ? 2f : canvas.Side * random.LogUniform(0.005f, 0.02f);
        var level = random.Uniform(0.2f, 0.7f);
        var contrast = random.LogUniform(0.25f, 0.7f);
        var isColored = random.Chance(0.5f);
        var first = canvas.Field(cell, 1);
        var second = isColored ? canvas.Field(cell, 1) : first;
        var third = isColored ? canvas.Field(cell, 1) : first;
        canvas.Fill((x, y) => new Rgb(
            Value(first[x, y]), Value(second[x, y]), Value(third[x, y])));

        float Value(float noise) => Math.Clamp(level + (contrast * level * noise), 0f, 1f);
    }

    private static void DrawStroke(
        Canvas canvas, (float X, float Y) start, float angle, float bend, float length, float width, Rgb color)
    {
        const float step = 0.8f;
        var (x, y) = start;
        for (var done = 0f; done < length; done += step)
        {
            var turn = angle + (bend * done / length);
            x += step * MathF.Cos(turn);
            y += step * MathF.Sin(turn);
            var half = MathF.Max(0.5f, 0.5f * width * (1f - (done / length)));
            canvas.Box(x - half, y - half, x + half, y + half, color * (0.7f + (0.5f * done / length)), 0.7f);
        }
    }

    // Where one stripe ends and the next begins, pixels from the corner, both ways.
    private static float[] Edges(PanelRandom random, float side)
    {
        var usual = side * random.LogUniform(0.02f, 0.25f);
        var spread = random.Uniform(0f, 0.9f);
        var edges = new List<float>();
        for (var at = -2f * side; at < 3f * side; at += usual * MathF.Exp(spread * random.Gaussian()) + 1f)
        {
            edges.Add(at);
        }

        return [.. edges];
    }

    private static int Position(float[] edges, float at)
    {
        var index = Array.BinarySearch(edges, at);
        return index < 0 ? ~index : index;
    }
}
