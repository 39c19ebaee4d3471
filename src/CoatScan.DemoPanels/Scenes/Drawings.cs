using CoatScan.DemoPanels.Paint;
using CoatScan.DemoPanels.Surface;
using CoatScan.Metrics;

namespace CoatScan.DemoPanels.Scenes;

/// <summary>Pictures drawn on a computer: ribbons, flat shapes, glows, an emblem on an even ground, layers of hills, facets.</summary>
internal static class Drawings
{
    public static void PaintRibbons(Canvas canvas)
    {
        var random = canvas.Random;
        Ground(canvas);
        var bands = random.Whole(1, 5);
        for (var band = 0; band < bands; band++)
        {
            var strands = random.Whole(1, 40);
            var (hue, drift) = (random.Uniform(), random.Uniform(-0.4f, 0.4f));
            var width = canvas.Side * random.LogUniform(0.05f, 0.5f);
            var middle = Noise.Line(random, canvas.Width, canvas.Width * random.Uniform(0.3f, 0.9f), 2);
            var spread = Noise.Line(random, canvas.Width, canvas.Width * random.Uniform(0.3f, 0.9f), 1);
            var center = random.Uniform(0.1f, 0.9f) * canvas.Height;
            var swing = random.Uniform(0.1f, 0.35f) * canvas.Height;
            var saturation = random.Uniform(0.2f, 0.9f);
            var (dark, bright) = (random.Uniform(0.1f, 0.6f), random.Uniform(0.6f, 1f));
            var (slant, opacity) = (random.Uniform(-0.8f, 0.8f), random.Uniform(0.5f, 1f));
            for (var y = 0; y < canvas.Height; y++)
            {
                for (var x = 0; x < canvas.Width; x++)
                {
                    var half = 0.5f * width * MathF.Max(0.08f, 1f + (0.7f * spread[x]));
                    var across = (y - center - (swing * middle[x]) - (slant * (x - (0.5f * canvas.Width)))) / half;
                    var coverage = Ramp.Smooth(1f + (1.5f / half), 1f - (1.5f / half), MathF.Abs(across)) * opacity;
                    if (coverage <= 0f)
                    {
                        continue;
                    }

                    var strand = (across + 1f) * 0.5f * strands;
                    var place = strand - MathF.Floor(strand);
                    var tone = Ramp.Mix(dark, bright, strands > 1 ? place : 0.5f + (0.5f * across));
                    canvas.Image.Over((y * canvas.Width) + x, Rgb.Hue(hue + (drift * across), saturation, Math.Clamp(tone, 0.02f, 1f)), coverage);
                }
            }
        }
    }

    public static void PaintShapes(Canvas canvas)
    {
        var random = canvas.Random;
        Ground(canvas);
        var count = random.Whole(1, 12);
        for (var i = 0; i < count; i++)
        {
            var isOval = random.Chance(0.45f);
            var (x, y) = (random.Uniform(-0.1f, 1.1f) * canvas.Width, random.Uniform(-0.1f, 1.1f) * canvas.Height);
            var (half, other) = (canvas.Side * random.LogUniform(0.05f, 0.7f), canvas.Side * random.LogUniform(0.03f, 0.6f));
            var turn = random.Chance(0.5f) ? random.Whole(0, 4) * 0.25f * MathF.PI : random.Angle();
            var (cos, sin) = (MathF.Cos(turn), MathF.Sin(turn));
            var hue = random.Uniform();
            var (first, last) = (Ink(random, hue), random.Chance(0.5f) ? Ink(random, hue + 0.1f) : default(Rgb?));
            var opacity = random.Chance(0.7f) ? 1f : random.Uniform(0.15f, 0.7f);
            var shadow = random.Chance(0.3f) ? canvas.Side * random.Uniform(0.01f, 0.05f) : 0f;
            canvas.Over((px, py) =>
            {
                var (dx, dy) = (px - x, py - y);
                var (u, v) = (((dx * cos) + (dy * sin)) / half, ((dy * cos) - (dx * sin)) / other);
                var outside = isOval
                    ? (MathF.Sqrt((u * u) + (v * v)) - 1f) * MathF.Min(half, other)
                    : MathF.Max((MathF.Abs(u) - 1f) * half, (MathF.Abs(v) - 1f) * other);
                if (outside < 1f)
                {
                    var color = last is { } end ? Rgb.Mix(first, end, Math.Clamp(0.5f + (0.5f * u), 0f, 1f)) : first;
                    return (color, opacity * Ramp.Smooth(0.8f, -0.8f, outside));
                }

                return (Rgb.Gray(0.01f), shadow > 0f ? 0.4f * Ramp.Smooth(shadow, 0f, outside) : 0f);
            });
        }
    }

    public static void PaintGlow(Canvas canvas)
    {
        var random = canvas.Random;
        var isDark = random.Chance(0.5f);
        var ground = isDark ? Rgb.Hue(random.Uniform(), 0.8f, random.Uniform(0f, 0.15f)) : Ink(random, random.Uniform());
        canvas.Fill((_, _) => ground);
        var turn = random.Uniform(-0.6f, 0.6f);
        var (cos, sin) = (MathF.Cos(turn), MathF.Sin(turn));
        var lights = random.Whole(2, 9);
        for (var i = 0; i < lights; i++)
        {
            var (x, y) = (random.Uniform() * canvas.Width, random.Uniform() * canvas.Height);
            var (length, width) = (canvas.Side * random.LogUniform(0.15f, 0.9f), canvas.Side * random.LogUniform(0.05f, 0.5f));
            var color = Rgb.Hue(random.Uniform(), random.Uniform(0.3f, 1f), random.Uniform(0.3f, 1f));
            canvas.Over((px, py) =>
            {
                var (dx, dy) = (px - x, py - y);
                var (u, v) = (((dx * cos) + (dy * sin)) / length, ((dy * cos) - (dx * sin)) / width);
                return (color, 0.9f * MathF.Exp(-((u * u) + (v * v))));
            });
        }

        // Out-of-focus lights or stars over it.
        var points = random.Chance(0.5f) ? (int)random.LogUniform(5f, 400f) : 0;
        var size = canvas.Side * random.LogUniform(0.001f, 0.05f) * (points > 60 ? 0.2f : 1f);
        for (var i = 0; i < points; i++)
        {
            var light = new Blob(
                random, random.Uniform() * canvas.Width, random.Uniform() * canvas.Height, MathF.Max(0.7f, size * random.Uniform(0.5f, 1.5f)), 0f);
            var color = Rgb.Hue(random.Uniform(), random.Uniform(0f, 0.6f), random.Uniform(0.5f, 1f));
            canvas.Fill(light, random.Uniform(0.2f, 0.9f), (_, _, _) => color);
        }
    }

    public static void PaintEmblem(Canvas canvas)
    {
        var random = canvas.Random;
        Ground(canvas);
        if (random.Chance(0.3f))
        {
            var stripe = canvas.Side * random.Uniform(0.03f, 0.3f);
            var strength = random.Uniform(0.05f, 0.3f);
            var isUpright = random.Chance(0.5f);
            canvas.Fill((x, y) => canvas.Image[(y * canvas.Width) + x] * (((int)((isUpright ? x : y) / stripe) & 1) == 0 ? 1f : 1f - strength));
        }

        var (x0, y0) = (random.Uniform(0.2f, 0.8f) * canvas.Width, random.Uniform(0.2f, 0.8f) * canvas.Height);
        var size = canvas.Side * random.LogUniform(0.04f, 0.3f);
        var ink = Ink(random, random.Uniform());
        var isRing = random.Chance(0.4f);
        var (wide, high) = (random.Uniform(0.5f, 1.5f), random.Uniform(0.5f, 1.5f));
        Mirrored(canvas, (x0, y0), (0f, 0f), (size * wide, size * high), random.Chance(0.7f), isRing ? 0.7f : 0f, ink);
        var parts = random.Whole(0, 6);
        for (var i = 0; i < parts; i++)
        {
            // Ears, wings, eyes: one on each side, so that it cannot be taken for a place where paint came off.
            Mirrored(
                canvas, (x0, y0), (size * random.Uniform(0.15f, 1.2f), size * random.Uniform(-1.2f, 1.2f)),
                (size * random.LogUniform(0.06f, 0.5f), size * random.LogUniform(0.06f, 0.5f)), random.Chance(0.7f), 0f,
                random.Chance(0.5f) ? ink : Ink(random, random.Uniform()));
        }

        if (random.Chance(0.4f))
        {
            var writing = new Plane(canvas.Width, canvas.Height);
            var glyphs = new Clutter.Glyphs(random);
            var letter = MathF.Max(7f, size * random.Uniform(0.12f, 0.4f));
            var letters = random.Whole(4, 16);
            for (var i = 0; i < letters; i++)
            {
                glyphs.Draw(writing, random, i * letter * 0.75f, 0f, letter, letter * 0.11f, x0 - (0.4f * letters * letter), y0 + (1.3f * size), 0f);
            }

            canvas.Print(writing, ink);
        }
    }

    public static void PaintHills(Canvas canvas)
    {
        var random = canvas.Random;
        Ground(canvas);
        if (random.Chance(0.6f))
        {
            var sun = new Blob(
                random, random.Uniform(0.1f, 0.9f) * canvas.Width, random.Uniform(0.1f, 0.5f) * canvas.Height, canvas.Side * random.LogUniform(0.03f, 0.25f), 0f);
            var light = Rgb.Hue(random.Uniform(0.03f, 0.16f), random.Uniform(0f, 0.8f), 1f);
            canvas.Fill(sun, 1f, (_, _, _) => light);
        }

        var layers = random.Whole(2, 8);
        var hue = random.Uniform();
        var (isPeaked, step) = (random.Chance(0.4f), random.Uniform(-0.06f, 0.06f));
        var saturation = random.Uniform(0.2f, 0.9f);
        for (var layer = 0; layer < layers; layer++)
        {
            var near = (layer + 1f) / layers;
            var ridge = Noise.Line(random, canvas.Width, canvas.Width * random.LogUniform(0.08f, 0.6f), isPeaked ? 5 : 1);
            var top = canvas.Height * (0.3f + (0.65f * near));
            var rise = canvas.Height * random.Uniform(0.03f, 0.15f);
            var color = Rgb.Hue(hue + (step * layer), saturation, Math.Clamp(1f - (0.85f * near), 0.05f, 1f));
            var fade = random.Uniform(0f, 0.8f);
            canvas.Over((x, y) =>
            {
                var below = y - top - (rise * ridge[x]);
                return (color * (1f + (fade * MathF.Max(0f, below) / canvas.Height)), Ramp.Smooth(-0.8f, 0.8f, below));
            });
        }
    }

    public static void PaintFacets(Canvas canvas)
    {
        var random = canvas.Random;
        var size = canvas.Side * random.LogUniform(0.06f, 0.5f);
        var cells = CellField.Build(random, canvas.Width, canvas.Height, size, 1f, 0f, 1f);
        var (hue, spread) = (random.Uniform(), random.Uniform(0.02f, 0.3f));
        var saturation = random.Uniform(0.2f, 0.95f);
        var sweep = canvas.Field(canvas.Side * 0.7f, 2);
        var seed = random.Next();
        var edge = random.Chance(0.3f) ? random.Uniform(0.3f, 1.6f) : 1f;
        canvas.Fill((x, y) =>
        {
            var at = (y * canvas.Width) + x;
            var own = new PanelRandom(seed + (ulong)cells.Cell[at]);
            var tone = own.Uniform(0.25f, 0.95f) + (0.1f * sweep[x, y]);
            var color = Rgb.Hue(hue + (spread * own.Gaussian()), saturation, Math.Clamp(tone, 0.03f, 1f));
            return color * Ramp.Mix(edge, 1f, Ramp.Smooth(0f, 2f, cells.BorderDistancePx.Values[at]));
        });
    }

    /// <summary>An oval or a box to the left and the same to the right of an upright middle line; hollow up to a share of its radius.</summary>
    private static void Mirrored(
        Canvas canvas, (float X, float Y) middle, (float X, float Y) away, (float X, float Y) half, bool isOval, float hollow, Rgb color) =>
        canvas.Over((x, y) =>
        {
            var (u, v) = ((MathF.Abs(x - middle.X) - away.X) / half.X, (y - middle.Y - away.Y) / half.Y);
            var share = isOval ? MathF.Sqrt((u * u) + (v * v)) : MathF.Max(MathF.Abs(u), MathF.Abs(v));
            var soft = 0.8f / MathF.Min(half.X, half.Y);
            return (color, Ramp.Smooth(1f + soft, 1f - soft, share) * (hollow > 0f ? Ramp.Smooth(hollow - soft, hollow + soft, share) : 1f));
        });

    /// <summary>One tone, or two or three that run into each other along a line or from a point.</summary>
    private static void Ground(Canvas canvas)
    {
        var random = canvas.Random;
        var hue = random.Uniform();
        var (first, last) = (Ink(random, hue), Ink(random, hue + random.Uniform(-0.25f, 0.25f)));
        var middle = random.Chance(0.3f) ? Ink(random, hue + random.Uniform(-0.2f, 0.2f)) : Rgb.Mix(first, last, 0.5f);
        var kind = random.Weighted(0.25f, 0.45f, 0.3f);
        var turn = random.Angle();
        var (cos, sin) = (MathF.Cos(turn), MathF.Sin(turn));
        var (x0, y0) = (random.Uniform() * canvas.Width, random.Uniform() * canvas.Height);
        var reach = canvas.Side * random.Uniform(0.5f, 1.3f);
        canvas.Fill((x, y) =>
        {
            if (kind == 0)
            {
                return first;
            }

            var (dx, dy) = (x - (0.5f * canvas.Width), y - (0.5f * canvas.Height));
            var share = kind == 1
                ? 0.5f + (((dx * cos) + (dy * sin)) / (1.2f * canvas.Side))
                : MathF.Sqrt(((x - x0) * (x - x0)) + ((y - y0) * (y - y0))) / reach;
            share = 2f * Math.Clamp(share, 0f, 1f);
            return share < 1f ? Rgb.Mix(first, middle, share) : Rgb.Mix(middle, last, share - 1f);
        });
    }

    private static Rgb Ink(PanelRandom random, float hue) => random.Chance(0.15f)
        ? Rgb.Gray(random.Uniform(0f, 0.95f))
        : Rgb.Hue(hue, random.Uniform(0.15f, 1f), random.Uniform(0.15f, 1f));
}
