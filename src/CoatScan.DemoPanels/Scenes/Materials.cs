using CoatScan.DemoPanels.Paint;
using CoatScan.DemoPanels.Surface;

namespace CoatScan.DemoPanels.Scenes;

/// <summary>Surfaces that are not painted sheet metal: brick, wood, cloth, asphalt and gravel.</summary>
internal static class Materials
{
    public static void PaintBricks(Canvas canvas)
    {
        var random = canvas.Random;
        var height = canvas.Side * random.LogUniform(0.05f, 0.22f);
        var width = height * random.Uniform(2f, 3.2f);
        var joint = height * random.Uniform(0.08f, 0.2f);
        var brick = Rgb.Hue(random.Uniform(0.01f, 0.1f), random.Uniform(0.1f, 0.7f), random.Uniform(0.35f, 0.8f));
        var mortar = Rgb.Gray(random.Uniform(0.15f, 0.6f));
        var grain = canvas.Field(height * 0.25f, 5, 0.65f);
        var bend = canvas.Field(height, 3);
        var seed = random.Next();
        canvas.Fill((x, y) =>
        {
            var py = y + (0.05f * height * bend[x, y]);
            var row = (int)MathF.Floor(py / height);
            var px = x + ((row & 1) * 0.5f * width) + (0.05f * height * bend[x, y]);
            var column = (int)MathF.Floor(px / width);
            var inX = px - (column * width);
            var inY = py - (row * height);
            var edge = MathF.Min(MathF.Min(inX, width - inX), MathF.Min(inY, height - inY));
            var tone = new PanelRandom(seed ^ (ulong)((row * 7919) + column)).Uniform(0.6f, 1.35f);
            var face = brick * MathF.Max(0.1f, tone * (1f + (0.18f * grain[x, y])));
            return Rgb.Mix(mortar * (0.8f + (0.1f * grain[x, y])), face, Ramp.Smooth(joint * 0.4f, joint * 0.7f, edge));
        });
    }

    public static void PaintWood(Canvas canvas)
    {
        var random = canvas.Random;
        var isUpright = random.Chance(0.5f);
        var stretch = random.LogUniform(12f, 50f);
        var grain = canvas.Field(canvas.Side * 0.12f, 5, 0.6f, isUpright ? 1f / stretch : stretch);
        var rings = canvas.Field(canvas.Side * 0.5f, 2, 0.5f, isUpright ? 0.2f : 5f);
        var color = Rgb.Hue(random.Uniform(0.05f, 0.11f), random.Uniform(0.3f, 0.75f), random.Uniform(0.35f, 0.85f));
        var plank = canvas.Side * random.Uniform(0.15f, 0.6f);
        var frequency = random.Uniform(4f, 14f);
        var seed = random.Next();
        canvas.Fill((x, y) =>
        {
            var across = isUpright ? x : y;
            var index = (int)(across / plank);
            var tone = new PanelRandom(seed + (ulong)index).Uniform(0.75f, 1.2f);
            var gap = across - (index * plank);
            var figure = MathF.Sin((rings[x, y] * frequency) + (index * 2f));
            var value = tone * (1f + (0.16f * grain[x, y]) + (0.1f * figure));
            return color * MathF.Max(0.05f, value * (gap < 2.5f ? 0.25f : 1f));
        });
    }

    public static void PaintCloth(Canvas canvas)
    {
        var random = canvas.Random;
        var thread = random.LogUniform(3f, 14f) * canvas.Side / 480f;
        var folds = canvas.Field(canvas.Side * random.Uniform(0.2f, 0.5f), 3, 0.5f, random.LogUniform(0.4f, 2.5f));
        var fuzz = canvas.Field(3f, 2, 0.7f);
        var warp = Rgb.Hue(random.Uniform(), random.Uniform(0f, 0.8f), random.Uniform(0.15f, 0.9f));
        var weft = random.Chance(0.6f) ? warp * 0.85f : Rgb.Hue(random.Uniform(), random.Uniform(0f, 0.8f), random.Uniform(0.15f, 0.9f));
        var stripes = random.Chance(0.4f) ? random.LogUniform(0.05f, 0.3f) * canvas.Side : 0f;
        canvas.Fill((x, y) =>
        {
            var px = x + (folds[x, y] * 4f);
            var py = y + (folds[x, y] * 3f);
            var i = (int)MathF.Floor(px / thread);
            var j = (int)MathF.Floor(py / thread);
            var isOver = ((i + j) & 1) == 0;
            var phase = isOver ? (py / thread) - j : (px / thread) - i;
            var color = isOver ? warp : weft;
            if (stripes > 0f && ((int)MathF.Floor((isOver ? px : py) / stripes) & 1) == 0)
            {
                color = Rgb.Mix(color, weft, 0.7f) * 0.6f;
            }

            var round = 0.55f + (1.6f * phase * (1f - phase));
            return color * MathF.Max(0.05f, round * (1f + (0.3f * folds[x, y]) + (0.08f * fuzz[x, y])));
        });
    }

    public static void PaintStones(Canvas canvas)
    {
        var random = canvas.Random;
        var stone = canvas.Side * random.LogUniform(0.008f, 0.08f);
        var cells = CellField.Build(random, canvas.Width, canvas.Height, stone, 1f, 0f, stone * 0.1f);
        var grain = canvas.Field(stone, 4, 0.6f);
        var wear = canvas.Field(canvas.Side * 0.3f, 3);
        var gray = random.LogUniform(0.04f, 0.35f);
        var warm = random.Uniform(0.85f, 1.25f);
        var seed = random.Next();
        canvas.Fill((x, y) =>
        {
            var at = (y * canvas.Width) + x;
            var tone = new PanelRandom(seed + (ulong)cells.Cell[at]).Uniform(0.4f, 1.7f);
            var edge = Ramp.Smooth(0f, stone * 0.2f, cells.BorderDistancePx.Values[at]);
            var level = gray * tone * (0.35f + (0.65f * edge)) * MathF.Max(0.2f, 1f + (0.2f * grain[x, y]) + (0.15f * wear[x, y]));
            return new Rgb(level * warm, level, level / warm);
        });
        if (random.Chance(0.25f))
        {
            var y0 = random.Uniform(0.2f, 0.8f) * canvas.Height;
            var half = random.Uniform(0.03f, 0.1f) * canvas.Side;
            canvas.Fill((x, y) => Rgb.Mix(
                canvas.Image[(y * canvas.Width) + x], Rgb.Gray(0.7f),
                0.85f * Ramp.Smooth(half + 2f, half - 2f, MathF.Abs(y - y0 + (0.1f * x))) * Ramp.Smooth(-1.5f, 0f, grain[x, y])));
        }
    }
}
