using CoatScan.DemoPanels.Paint;
using CoatScan.DemoPanels.Surface;

namespace CoatScan.DemoPanels.Scenes;

/// <summary>What people photograph besides cars: mountains and meadows, a blossom from near, a room or a street.</summary>
internal static class Outdoors
{
    public static void PaintLandscape(Canvas canvas)
    {
        var random = canvas.Random;
        Nature.PaintSky(canvas);
        var haze = Rgb.Hue(random.Uniform(0.5f, 0.65f), random.Uniform(0f, 0.35f), random.Uniform(0.5f, 0.95f));
        var layers = random.Whole(1, 5);
        var horizon = random.Uniform(0.25f, 0.55f);
        for (var layer = 0; layer < layers; layer++)
        {
            var near = (layer + 1f) / layers;
            var ridge = Noise.Line(random, canvas.Width, canvas.Width * random.LogUniform(0.1f, 0.5f), 6);
            var grain = canvas.Field(canvas.Side * random.LogUniform(0.01f, 0.06f) * (0.5f + near), 5, random.Uniform(0.5f, 0.75f));
            var relief = canvas.Field(canvas.Side * 0.15f, 4, 0.6f);
            var top = canvas.Height * (horizon + ((0.9f - horizon) * near * random.Uniform(0.3f, 0.8f)));
            var rise = canvas.Height * random.LogUniform(0.01f, 0.15f);
            var color = Rgb.Hue(random.Uniform(0.06f, 0.4f), random.Uniform(0.1f, 0.7f), random.Uniform(0.15f, 0.6f));
            var contrast = random.Uniform(0.2f, 0.6f) * (0.4f + (0.6f * near));
            var mist = (1f - near) * random.Uniform(0.2f, 0.8f);
            canvas.Over((x, y) =>
            {
                var below = y - top - (rise * ridge[x]);
                var tone = MathF.Max(0.05f, 1f + (contrast * grain[x, y]) + (0.5f * contrast * relief[x, y]));
                return (Rgb.Mix(color * tone, haze, mist), Ramp.Smooth(-1f, 1f, below));
            });
        }
    }

    public static void PaintBlossom(Canvas canvas)
    {
        var random = canvas.Random;

        // Far behind: soft patches of color.
        var ground = Rgb.Hue(random.Uniform(0.1f, 0.45f), random.Uniform(0.2f, 0.8f), random.Uniform(0.05f, 0.6f));
        canvas.Fill((_, _) => ground);
        for (var i = 0; i < 14; i++)
        {
            var patch = new Blob(
                random, random.Uniform() * canvas.Width, random.Uniform() * canvas.Height, canvas.Side * random.Uniform(0.08f, 0.3f), 0.2f);
            var color = Rgb.Hue(random.Uniform(), random.Uniform(0.2f, 0.9f), random.Uniform(0.1f, 0.9f));
            canvas.Fill(patch, random.Uniform(0.2f, 0.8f), (_, _, _) => color);
        }

        var blur = canvas.Side * random.Uniform(0.03f, 0.08f);
        Blur.InPlace(canvas.Image.Red, blur);
        Blur.InPlace(canvas.Image.Green, blur);
        Blur.InPlace(canvas.Image.Blue, blur);

        var flowers = random.Whole(1, 4);
        for (var flower = 0; flower < flowers; flower++)
        {
            var (x0, y0) = (random.Uniform(0.1f, 0.9f) * canvas.Width, random.Uniform(0.1f, 0.9f) * canvas.Height);
            var size = canvas.Side * random.LogUniform(0.12f, 0.6f);
            var petals = random.Whole(5, 22);
            var (hue, saturation) = (random.Uniform(), random.Uniform(0.2f, 0.95f));
            var elongation = random.Uniform(1.5f, 6f);
            var veins = random.Uniform(0f, 0.25f);
            for (var i = 0; i < petals; i++)
            {
                var angle = ((i + (0.3f * random.Gaussian())) * 2f * MathF.PI / petals) + (0.1f * random.Gaussian());
                var (cos, sin) = (MathF.Cos(angle), MathF.Sin(angle));
                var length = size * random.Uniform(0.7f, 1.1f);
                var width = length / elongation;
                var color = Rgb.Hue(hue + (0.02f * random.Gaussian()), saturation, random.Uniform(0.5f, 1f));
                var phase = random.Angle();
                canvas.Over((x, y) =>
                {
                    var (dx, dy) = (x - x0, y - y0);
                    var along = ((dx * cos) + (dy * sin)) / length;
                    if (along is < 0f or > 1f)
                    {
                        return (color, 0f);
                    }

                    var half = width * MathF.Sqrt(along) * MathF.Sqrt(1f - along) * 2f;
                    var across = ((dy * cos) - (dx * sin)) / MathF.Max(1f, half);
                    var tone = 0.55f + (0.5f * along) - (0.35f * across * across) + (veins * MathF.Sin((across * 12f) + phase));
                    return (color * MathF.Max(0.1f, tone), Ramp.Smooth(1f + (1f / half), 1f - (1f / half), MathF.Abs(across)));
                });
            }

            var heart = new Blob(random, x0, y0, size * random.Uniform(0.12f, 0.3f), 0.1f);
            var middle = Rgb.Hue(random.Uniform(0.05f, 0.16f), 0.8f, random.Uniform(0.2f, 0.9f));
            var dots = canvas.Field(MathF.Max(2f, size * 0.03f), 2, 0.7f);
            canvas.Fill(heart, 1f, (x, y, share) => middle * MathF.Max(0.1f, 1.1f - (0.5f * share) + (0.4f * dots[x, y])));
        }
    }

    public static void PaintRoom(Canvas canvas)
    {
        var random = canvas.Random;
        var corner = random.Uniform(0.2f, 0.8f) * canvas.Width;
        var floor = random.Uniform(0.55f, 0.85f) * canvas.Height;
        var wall = Rgb.Hue(random.Uniform(0.03f, 0.65f), random.Uniform(0f, 0.35f), random.Uniform(0.3f, 0.95f));
        var ground = Rgb.Hue(random.Uniform(0.03f, 0.15f), random.Uniform(0f, 0.6f), random.Uniform(0.15f, 0.7f));
        var plaster = canvas.Field(canvas.Side * 0.05f, 4, 0.6f);
        var (left, right) = (random.Uniform(-0.3f, 0.1f), random.Uniform(-0.1f, 0.3f));
        canvas.Fill((x, y) =>
        {
            var isLeft = x < corner;
            var edge = floor + ((isLeft ? left : right) * (x - corner));
            var color = y > edge ? ground : wall * (isLeft ? 0.7f : 1f);
            return color * MathF.Max(0.2f, 1f + (0.04f * plaster[x, y]));
        });
        var things = random.Whole(4, 22);
        for (var i = 0; i < things; i++)
        {
            var x = random.Uniform(-0.1f, 1f) * canvas.Width;
            var y = random.Uniform(0f, 0.9f) * canvas.Height;
            var (width, height) = (canvas.Side * random.LogUniform(0.04f, 0.45f), canvas.Side * random.LogUniform(0.04f, 0.5f));
            var color = Rgb.Hue(random.Uniform(), random.Uniform(0f, 0.7f), random.Uniform(0.05f, 0.9f));
            canvas.Box(x + (0.06f * width), y + (0.06f * height), x + (1.08f * width), y + (1.08f * height), Rgb.Gray(0.01f), 0.35f);
            canvas.Box(x, y, x + width, y + height, color);
            canvas.Box(x, y, x + (0.12f * width), y + height, color * 0.6f);
            if (random.Chance(0.4f))
            {
                Panes(canvas, x, y, width, height, Rgb.Hue(random.Uniform(0.5f, 0.65f), random.Uniform(0f, 0.4f), random.Uniform(0.1f, 1f)));
            }
        }
    }

    // A window or shelf: a grid of panes in a frame.
    private static void Panes(Canvas canvas, float x, float y, float width, float height, Rgb color)
    {
        var (columns, rows) = (canvas.Random.Whole(1, 5), canvas.Random.Whole(1, 6));
        for (var column = 0; column < columns; column++)
        {
            for (var row = 0; row < rows; row++)
            {
                var (left, top) = (x + ((column + 0.12f) * width / columns), y + ((row + 0.12f) * height / rows));
                canvas.Box(left, top, left + (0.76f * width / columns), top + (0.76f * height / rows), color * canvas.Random.Uniform(0.4f, 1f));
            }
        }
    }
}
