using CoatScan.DemoPanels.Surface;

namespace CoatScan.DemoPanels.Defects;

/// <summary>The outline of an older repair that shows through: rims of sanded coats that swelled or sank, or a tape line.</summary>
internal static class RepairOutline
{
    public static void Paint(PanelContext context)
    {
        if (context.Random.Chance(0.85f))
        {
            PaintContours(context);
        }
        else
        {
            PaintTapeLine(context);
        }
    }

    private static void PaintContours(PanelContext context)
    {
        var random = context.Random;
        var surface = context.Surface;
        var radius = random.LogUniform(0.14f, 0.45f) * context.Side;
        var blob = new Blob(
            random, random.Uniform(0.25f, 0.75f) * context.Width, random.Uniform(0.25f, 0.75f) * context.Height, radius,
            random.Uniform(0.1f, 0.45f), random.LogUniform(1f, 1.8f), 5);
        var rims = random.Whole(1, 5);
        var gap = radius * random.Uniform(0.08f, 0.2f);
        var width = MathF.Max(1.6f * context.PxScale, random.LogUniform(0.03f, 0.09f) * radius);
        var heightMm = random.LogUniform(0.12f, 0.4f) * context.Strength * width * surface.MmPerPx * (random.Chance(0.7f) ? 1f : -1f);
        var tone = random.Chance(0.6f) ? random.Uniform(0.6f, 0.84f) : random.Uniform(1.16f, 1.45f);
        var inner = random.Chance(0.5f) ? 1f + (0.06f * random.Gaussian()) : 1f;
        var dull = random.Chance(0.5f) ? random.Uniform(0.02f, 0.12f) : 0f;
        for (var y = 0; y < context.Height; y++)
        {
            for (var x = 0; x < context.Width; x++)
            {
                var at = (y * context.Width) + x;
                var distance = blob.DistancePx(x, y);
                if (distance > 3f * width)
                {
                    continue;
                }

                var line = 0f;
                for (var rim = 0; rim < rims; rim++)
                {
                    var across = (distance + (rim * gap)) / width;
                    line = MathF.Max(line, MathF.Exp(-across * across) * (1f - (0.15f * rim)));
                }

                var within = Ramp.Smooth(0.5f * width, -0.5f * width, distance);
                var level = (1f + ((tone - 1f) * line * MathF.Min(1.6f, context.Strength))) * (1f + ((inner - 1f) * within));
                surface.SetAlbedo(at, (surface.Albedo(at) * level).Clamp(0.003f, 0.95f));
                surface.HeightMm.Values[at] += heightMm * line;
                surface.RoughnessUm.Values[at] += dull * within;
                surface.MarkDefect(at, MathF.Max(Ramp.Smooth(0.25f, 0.5f, line), within > 0.5f && rims > 2 ? 0.51f : 0f));
            }
        }
    }

    // Paint built up against tape leaves a low wall with a thin ragged edge.
    private static void PaintTapeLine(PanelContext context)
    {
        var random = context.Random;
        var surface = context.Surface;
        var angle = random.Angle();
        var cos = MathF.Cos(angle);
        var sin = MathF.Sin(angle);
        var offset = (cos * context.Width * random.Uniform(0.3f, 0.7f)) + (sin * context.Height * random.Uniform(0.3f, 0.7f));
        var jag = context.Field(3f * context.PxScale, 2);
        var width = random.Uniform(1.6f, 3.2f) * context.PxScale;
        var heightMm = random.LogUniform(0.2f, 0.6f) * context.Strength * width * surface.MmPerPx;
        var beyond = 1f + (random.Chance(0.5f) ? 0.07f * random.Gaussian() : 0f);
        var rim = random.Uniform(0.45f, 0.75f);
        for (var y = 0; y < context.Height; y++)
        {
            for (var x = 0; x < context.Width; x++)
            {
                var at = (y * context.Width) + x;
                var distance = (x * cos) + (y * sin) - offset + (0.5f * jag[x, y]);
                var line = MathF.Exp(-distance * distance / (width * width));
                var side = Ramp.Smooth(-width, width, distance);
                var level = (1f + ((rim - 1f) * line)) * (1f + ((beyond - 1f) * side));
                surface.SetAlbedo(at, (surface.Albedo(at) * level).Clamp(0.003f, 0.95f));
                surface.HeightMm.Values[at] += heightMm * (side + line);
                surface.MarkDefect(at, Ramp.Smooth(0.2f, 0.5f, line));
            }
        }
    }
}
