using CoatScan.DemoPanels.Surface;

namespace CoatScan.DemoPanels.Defects;

/// <summary>The outline of an older repair that shows through: rims of sanded coats that swelled or sank.</summary>
internal static class RepairOutline
{
    public static void Paint(PanelContext context)
    {
        var random = context.Random;
        var surface = context.Surface;
        var radius = random.LogUniform(0.18f, 0.45f) * context.Side;
        var blob = new Blob(
            random, random.Uniform(0.25f, 0.75f) * context.Width, random.Uniform(0.25f, 0.75f) * context.Height, radius,
            random.Uniform(0.1f, 0.45f), random.LogUniform(1f, 1.8f), 5);
        var rims = random.Whole(2, 6);
        var gap = radius * random.Uniform(0.08f, 0.2f);
        var width = MathF.Max(1.6f * context.PxScale, random.LogUniform(0.03f, 0.09f) * radius);
        var heightMm = random.LogUniform(0.18f, 0.5f) * context.Strength * width * surface.MmPerPx * (random.Chance(0.7f) ? 1f : -1f);
        var tone = random.Chance(0.6f) ? random.Uniform(0.45f, 0.75f) : random.Uniform(1.25f, 1.7f);
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
}
