using CoatScan.Imaging;

namespace CoatScan.Training.Rendering.NonPanels;

/// <summary>
/// Invented pictures that show no painted panel, by another hand than the renderer's own <c>not_a_panel</c> scenes, which are trained on: what
/// somebody may send by mistake. For evaluation only.
/// </summary>
internal static class NonPanelPictures
{
    private static readonly (string Kind, Action<Picture> Paint)[] Kinds =
    [
        ("weave", Weave), ("marble", Marble), ("wood", Wood), ("fur", Fur), ("text", Text), ("form", Form), ("sky", Sky), ("night", Night),
        ("noise", GrayNoise), ("color-noise", ColorNoise), ("face", Face), ("crowd", Crowd), ("fruit", Fruit), ("checks", Checks),
        ("gradient", Gradient), ("chart", Chart), ("bars", Bars), ("grass", Grass), ("tiles", Tiles), ("one-tone", OneTone),
    ];

    /// <summary>What is drawn, in the order in which numbers take turns.</summary>
    public static IReadOnlyList<string> KindNames => [.. Kinds.Select(kind => kind.Kind)];

    /// <summary>One picture as a JPEG file; equal numbers give equal bytes.</summary>
    public static (string Kind, byte[] Jpeg) Draw(int number)
    {
        var (kind, paint) = Kinds[number % Kinds.Length];
        var random = new Random(900_001 + number);
        var picture = random.Next(2) == 0 ? new Picture(800, 600, random) : new Picture(600, 800, random);
        paint(picture);
        return (kind, PhotoEncoder.EncodeJpeg(picture.ToBytes(), picture.WidthPx, picture.HeightPx, random.Next(60, 96)));
    }

    private static double[] Mix(double[] from, double[] to, double share) =>
        [.. from.Zip(to, (a, b) => a + ((b - a) * Math.Clamp(share, 0, 1)))];

    private static double[] Gray(double level) => [level, level, level];

    private static double[] Lit(double[] color, double factor) => [.. color.Select(value => value * factor)];

    private static void Weave(Picture picture)
    {
        var (warp, weft) = (picture.AnyColor(), picture.AnyColor());
        var pitch = picture.Between(4, 24);
        picture.Fill((x, y) =>
        {
            var (column, row) = ((int)(x / pitch), (int)(y / pitch));
            var over = (column + row) % 2 == 0;
            var along = Math.Sin(Math.PI * ((over ? x : y) / pitch % 1));
            return Lit(over ? warp : weft, 0.4 + (0.6 * along));
        });
    }

    private static void Marble(Picture picture)
    {
        var clouds = picture.Clouds(picture.SidePx * 0.5, 6);
        var (light, vein) = (picture.AnyColor(), picture.AnyColor());
        var turns = picture.Between(3, 14);
        picture.Fill((x, y) => Mix(vein, light, Math.Abs(Math.Sin(turns * ((x / (double)picture.WidthPx) + clouds[(y * picture.WidthPx) + x])))));
    }

    private static void Wood(Picture picture)
    {
        var clouds = picture.Clouds(picture.SidePx * 0.3, 4);
        var dark = new[] { picture.Between(0.2, 0.5), picture.Between(0.1, 0.3), picture.Between(0.02, 0.15) };
        var rings = picture.Between(10, 40);
        picture.Fill((x, y) => Lit(dark, 1.2 + (0.7 * Math.Sin(rings * ((y / (double)picture.HeightPx) + (0.25 * clouds[(y * picture.WidthPx) + x]))))));
    }

    private static void Fur(Picture picture)
    {
        var coat = picture.AnyColor();
        picture.Fill((_, _) => Lit(coat, 0.3));
        for (var hair = 0; hair < 9000; hair++)
        {
            var (x, y) = (picture.Between(0, picture.WidthPx), picture.Between(0, picture.HeightPx));
            var (turn, length, light) = (picture.Between(1.2, 1.9), picture.Between(15, 60), picture.Between(0.4, 1.5));
            for (var step = 0.0; step < length; step++)
            {
                var (px, py) = ((int)(x + (step * Math.Cos(turn))), (int)(y + (step * Math.Sin(turn))));
                if (px >= 0 && py >= 0 && px < picture.WidthPx && py < picture.HeightPx)
                {
                    picture.Set(px, py, Lit(coat, light));
                }
            }
        }
    }

    private static void Text(Picture picture)
    {
        var paper = Gray(picture.Between(0.8, 1));
        picture.Fill((_, _) => paper);
        var size = picture.Between(10, 34);
        for (var y = size; y < picture.HeightPx - size; y += size * 1.6)
        {
            for (var x = size; x < picture.WidthPx - size; x += size * 0.75)
            {
                if (picture.Random.Next(6) > 0)
                {
                    Letter(picture, x, y, size);
                }
            }
        }
    }

    // Two to four strokes of a letter nobody knows.
    private static void Letter(Picture picture, double x, double y, double size)
    {
        var ink = Gray(picture.Between(0, 0.2));
        for (var stroke = picture.Random.Next(2, 5); stroke > 0; stroke--)
        {
            var isUpright = picture.Random.Next(2) == 0;
            var along = picture.Random.Next(3) * size * 0.22;
            picture.Box(
                x + (isUpright ? along : 0), y + (isUpright ? 0 : along), isUpright ? size * 0.1 : size * 0.5,
                isUpright ? size * 0.7 : size * 0.1, ink);
        }
    }

    private static void Form(Picture picture)
    {
        picture.Fill((_, _) => Gray(0.95));
        var row = picture.Between(24, 60);
        for (var y = row; y < picture.HeightPx - row; y += row)
        {
            picture.Box(20, y, picture.WidthPx - 40, 2, Gray(0.3));
            for (var x = 26.0; x < picture.WidthPx * picture.Between(0.2, 0.9); x += 11)
            {
                Letter(picture, x, y - 16, 14);
            }
        }
    }

    private static void Sky(Picture picture)
    {
        var clouds = picture.Clouds(picture.SidePx * picture.Between(0.2, 0.6), 6);
        var (low, high) = (new[] { 0.75, 0.85, 0.95 }, new[] { picture.Between(0.1, 0.4), picture.Between(0.3, 0.55), picture.Between(0.7, 0.95) });
        var amount = picture.Between(-0.4, 0.4);
        picture.Fill((x, y) => Mix(
            Mix(high, low, y / (double)picture.HeightPx), Gray(0.96), 1.5 * (clouds[(y * picture.WidthPx) + x] + amount)));
    }

    private static void Night(Picture picture)
    {
        picture.Fill((_, y) => Lit([0.1, 0.12, 0.25], y / (double)picture.HeightPx));
        for (var star = picture.Random.Next(60, 400); star > 0; star--)
        {
            var radius = picture.Between(0.8, 3.5);
            var tone = Mix(Gray(1), picture.AnyColor(), 0.4);
            picture.Ellipse(
                picture.Between(0, picture.WidthPx), picture.Between(0, picture.HeightPx), radius, radius, (share, _, _) => Lit(tone, 1 - share));
        }
    }

    private static void GrayNoise(Picture picture)
    {
        var (level, spread) = (picture.Between(0.3, 0.7), picture.Between(0.1, 0.5));
        picture.Fill((_, _) => Gray(level + picture.Between(-spread, spread)));
    }

    private static void ColorNoise(Picture picture)
    {
        var cell = picture.Random.Next(1, 9);
        var tones = Enumerable.Range(0, 64).Select(_ => picture.AnyColor()).ToArray();
        var salt = picture.Random.Next(1, 1000);
        picture.Fill((x, y) => tones[(((x / cell * 7919) + (y / cell * 104729) + salt) * 2654435 >>> 8) % tones.Length]);
    }

    private static void Face(Picture picture)
    {
        var behind = picture.AnyColor();
        picture.Fill((_, _) => behind);
        DrawFace(picture, picture.WidthPx * picture.Between(0.4, 0.6), picture.HeightPx * picture.Between(0.4, 0.6), picture.SidePx * picture.Between(0.25, 0.45));
    }

    private static void Crowd(Picture picture)
    {
        picture.Fill((_, y) => Gray(0.3 + (0.4 * y / picture.HeightPx)));
        for (var i = picture.Random.Next(6, 20); i > 0; i--)
        {
            DrawFace(picture, picture.Between(0, picture.WidthPx), picture.Between(0, picture.HeightPx), picture.SidePx * picture.Between(0.06, 0.14));
        }
    }

    private static void DrawFace(Picture picture, double x, double y, double size)
    {
        var skin = Mix([0.95, 0.8, 0.68], [0.35, 0.2, 0.13], picture.Random.NextDouble());
        var hair = Lit(picture.AnyColor(), 0.5);
        picture.Ellipse(x, y - (0.25 * size), size * 0.85, size, (_, _, _) => hair);
        picture.Ellipse(x, y, size * 0.72, size * 0.95, (share, dx, _) => Lit(skin, 1.08 - (0.3 * share * share) + (0.1 * dx)));
        foreach (var side in new[] { -1, 1 })
        {
            picture.Ellipse(x + (side * 0.28 * size), y - (0.15 * size), 0.13 * size, 0.08 * size, (_, _, _) => Gray(0.95));
            picture.Ellipse(x + (side * 0.28 * size), y - (0.15 * size), 0.06 * size, 0.06 * size, (_, _, _) => Gray(0.1));
        }

        picture.Ellipse(x, y + (0.12 * size), 0.07 * size, 0.16 * size, (_, _, _) => Lit(skin, 0.85));
        picture.Ellipse(x, y + (0.48 * size), 0.24 * size, 0.07 * size, (_, _, _) => [0.65, 0.25, 0.25]);
    }

    private static void Fruit(Picture picture)
    {
        var table = picture.AnyColor();
        picture.Fill((_, y) => Lit(table, 0.6 + (0.4 * y / picture.HeightPx)));
        for (var i = picture.Random.Next(3, 12); i > 0; i--)
        {
            var radius = picture.SidePx * picture.Between(0.1, 0.25);
            var skin = new[] { picture.Between(0.5, 1), picture.Between(0.2, 0.9), picture.Between(0, 0.25) };
            picture.Ellipse(picture.Between(0, picture.WidthPx), picture.Between(0, picture.HeightPx), radius, radius * picture.Between(0.8, 1.2), (share, dx, dy) =>
            {
                var shine = Math.Exp(-18 * (((dx + 0.35) * (dx + 0.35)) + ((dy + 0.4) * (dy + 0.4))));
                return [.. Lit(skin, 1.1 - (0.7 * share * share)).Select(value => value + (0.7 * shine))];
            });
        }
    }

    private static void Checks(Picture picture)
    {
        var (first, second) = (picture.AnyColor(), picture.AnyColor());
        var cell = picture.Random.Next(8, 120);
        picture.Fill((x, y) => ((x / cell) + (y / cell)) % 2 == 0 ? first : second);
    }

    private static void Gradient(Picture picture)
    {
        double[][] corners = [picture.AnyColor(), picture.AnyColor(), picture.AnyColor(), picture.AnyColor()];
        picture.Fill((x, y) => Mix(
            Mix(corners[0], corners[1], x / (double)picture.WidthPx), Mix(corners[2], corners[3], x / (double)picture.WidthPx),
            y / (double)picture.HeightPx));
    }

    private static void Chart(Picture picture)
    {
        picture.Fill((_, _) => Gray(1));
        for (var line = 1; line < 8; line++)
        {
            picture.Box(40, picture.HeightPx * line / 8.0, picture.WidthPx - 80, 1, Gray(0.8));
        }

        var width = picture.Between(16, 60);
        for (var x = 50.0; x < picture.WidthPx - 60; x += width * 1.4)
        {
            var height = picture.HeightPx * picture.Between(0.1, 0.8);
            picture.Box(x, picture.HeightPx - 40 - height, width, height, picture.AnyColor());
        }
    }

    private static void Bars(Picture picture)
    {
        var tones = Enumerable.Range(0, picture.Random.Next(3, 12)).Select(_ => picture.AnyColor()).ToArray();
        var isUpright = picture.Random.Next(2) == 0;
        picture.Fill((x, y) => tones[isUpright ? x * tones.Length / picture.WidthPx : y * tones.Length / picture.HeightPx]);
    }

    private static void Grass(Picture picture)
    {
        picture.Fill((_, _) => [0.1, 0.2, 0.05]);
        for (var blade = 0; blade < 5000; blade++)
        {
            var (x, y) = (picture.Between(0, picture.WidthPx), picture.Between(0, picture.HeightPx));
            var (lean, length) = (picture.Between(-0.5, 0.5), picture.Between(20, 70));
            double[] green = [picture.Between(0.1, 0.5), picture.Between(0.35, 0.8), picture.Between(0, 0.3)];
            for (var step = 0.0; step < length; step++)
            {
                picture.Box(x + (lean * step), y - step, Math.Max(1, 3 - (3 * step / length)), 1, green);
            }
        }
    }

    private static void Tiles(Picture picture)
    {
        var (tile, joint) = (picture.AnyColor(), Gray(picture.Between(0.1, 0.9)));
        var clouds = picture.Clouds(12, 3);
        var (width, height) = (picture.Random.Next(40, 200), picture.Random.Next(30, 120));
        picture.Fill((x, y) =>
        {
            var shift = y / height % 2 * width / 2;
            return (x + shift) % width < 5 || y % height < 5 ? joint : Lit(tile, 1 + (0.15 * clouds[(y * picture.WidthPx) + x]));
        });
    }

    private static void OneTone(Picture picture)
    {
        var tone = picture.AnyColor();
        picture.Fill((_, _) => tone);
    }
}
