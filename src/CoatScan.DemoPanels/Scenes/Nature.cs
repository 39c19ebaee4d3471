using CoatScan.DemoPanels.Paint;
using CoatScan.DemoPanels.Surface;

namespace CoatScan.DemoPanels.Scenes;

/// <summary>Leaves, sky, fruit.</summary>
internal static class Nature
{
    public static void PaintFoliage(Canvas canvas)
    {
        var random = canvas.Random;
        var ground = canvas.Field(canvas.Side * 0.1f, 4, 0.6f);
        var hue = random.Uniform(0.18f, 0.36f);
        var dark = Rgb.Hue(hue, 0.6f, 0.2f);
        canvas.Fill((x, y) => dark * MathF.Max(0.1f, 0.6f + (0.5f * ground[x, y])));
        var count = (int)random.LogUniform(80f, 500f);
        var size = canvas.Side * 0.9f / MathF.Sqrt(count);
        for (var i = 0; i < count; i++)
        {
            var leaf = new Blob(
                random, random.Uniform() * canvas.Width, random.Uniform() * canvas.Height, size * random.LogUniform(0.4f, 1.2f),
                random.Uniform(0.02f, 0.15f), random.LogUniform(1.5f, 6f));
            var color = Rgb.Hue(hue + (0.04f * random.Gaussian()), random.Uniform(0.25f, 0.75f), random.Uniform(0.15f, 0.65f));
            var tilt = random.Angle();
            var tiltX = MathF.Cos(tilt) / leaf.ReachPx;
            var tiltY = MathF.Sin(tilt) / leaf.ReachPx;
            canvas.Fill(leaf, 1f, (x, y, share) => color * MathF.Max(
                0.15f, 1f - (0.3f * share) + (0.4f * (((x - leaf.CenterX) * tiltX) + ((y - leaf.CenterY) * tiltY)))));
        }

        if (random.Chance(0.4f))
        {
            var flowers = random.Whole(3, 30);
            var hueOfFlowers = random.Uniform();
            for (var i = 0; i < flowers; i++)
            {
                var flower = new Blob(
                    random, random.Uniform() * canvas.Width, random.Uniform() * canvas.Height, size * random.Uniform(0.3f, 0.7f), 0.3f);
                var color = Rgb.Hue(hueOfFlowers, random.Uniform(0.2f, 0.9f), random.Uniform(0.7f, 1f));
                canvas.Fill(flower, 1f, (_, _, share) => share < 0.25f ? Rgb.Display(0.8f, 0.65f, 0.1f) : color * (0.6f + (0.4f * share)));
            }
        }
    }

    public static void PaintSky(Canvas canvas)
    {
        var random = canvas.Random;
        var clouds = canvas.Field(canvas.Side * random.LogUniform(0.2f, 0.7f), 6, random.Uniform(0.45f, 0.6f), random.LogUniform(1f, 4f));
        var top = Rgb.Hue(random.Uniform(0.55f, 0.63f), random.Uniform(0.2f, 0.8f), random.Uniform(0.45f, 0.95f));
        var bottom = Rgb.Mix(top, random.Chance(0.3f) ? Rgb.Display(0.98f, 0.7f, 0.45f) : Rgb.Display(0.9f, 0.93f, 0.96f), 0.7f);
        var threshold = random.Uniform(-0.8f, 1f);
        var softness = random.Uniform(0.6f, 2f);
        canvas.Fill((x, y) =>
        {
            var cover = Ramp.Smooth(threshold, threshold + softness, clouds[x, y]);
            var shade = 0.9f - (0.25f * Ramp.Smooth(0.5f, 2f, clouds[x, y]));
            return Rgb.Mix(Rgb.Mix(top, bottom, y / (float)canvas.Height), Rgb.Gray(shade), cover);
        });
        if (random.Chance(0.5f))
        {
            var line = Noise.Line(random, canvas.Width, random.LogUniform(10f, 120f), 5);
            var ground = canvas.Height * random.Uniform(0.6f, 0.95f);
            var color = Rgb.Hue(random.Uniform(0.08f, 0.4f), 0.4f, random.Uniform(0.05f, 0.35f));
            var rise = canvas.Height * random.Uniform(0.01f, 0.08f);
            canvas.Fill((x, y) => Rgb.Mix(
                canvas.Image[(y * canvas.Width) + x], color, Ramp.Smooth(-1f, 1f, y - ground - (rise * line[x]))));
        }
    }

    public static void PaintFruit(Canvas canvas)
    {
        var random = canvas.Random;
        var cloth = canvas.Field(canvas.Side * random.LogUniform(0.01f, 0.2f), 4, 0.6f, random.LogUniform(1f, 10f));
        var table = Rgb.Hue(random.Uniform(), random.Uniform(0f, 0.5f), random.Uniform(0.2f, 0.9f));
        canvas.Fill((x, y) => table * MathF.Max(0.2f, 1f + (0.12f * cloth[x, y])));
        var count = random.Whole(1, 14);
        var radius = canvas.Side * random.Uniform(0.35f, 0.6f) / MathF.Sqrt(count);
        var hue = random.Pick(0f, 0.02f, 0.08f, 0.13f, 0.22f, 0.3f, 0.78f);
        var skin = canvas.Field(radius * random.LogUniform(0.05f, 0.4f), 4, 0.6f);
        for (var i = 0; i < count; i++)
        {
            var x = random.Uniform(0.1f, 0.9f) * canvas.Width;
            var y = random.Uniform(0.1f, 0.9f) * canvas.Height;
            var shadow = new Blob(random, x + (0.2f * radius), y + (0.25f * radius), radius * 1.1f, 0.05f);
            canvas.Fill(shadow, 0.6f, (_, _, share) => table * (0.2f + (0.6f * share * share)));
            var color = Rgb.Hue(hue + (0.025f * random.Gaussian()), random.Uniform(0.6f, 0.95f), random.Uniform(0.4f, 0.9f));
            var fruit = new Blob(random, x, y, radius * random.Uniform(0.8f, 1.15f), 0.08f, random.LogUniform(1f, 1.6f));
            var gloss = random.Uniform(0f, 0.8f);
            canvas.Fill(fruit, 1f, (px, py, share) =>
            {
                var dx = (px - x + (0.35f * radius)) / radius;
                var dy = (py - y + (0.4f * radius)) / radius;
                var lit = 1.15f - (0.75f * share * share) + (0.1f * skin[px, py]);
                return (color * MathF.Max(0.1f, lit)) + Rgb.Gray(gloss * MathF.Exp(-14f * ((dx * dx) + (dy * dy))));
            });
        }
    }
}
