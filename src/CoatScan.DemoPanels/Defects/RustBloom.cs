using CoatScan.DemoPanels.Paint;
using CoatScan.DemoPanels.Surface;
using CoatScan.Metrics;

namespace CoatScan.DemoPanels.Defects;

/// <summary>Rust: spots, blooms from under the film, bubbled edges, and the stain that runs down from them.</summary>
internal static class RustBloom
{
    public static void Paint(PanelContext context)
    {
        var random = context.Random;
        var amount = random.Weighted(0.4f, 0.35f, 0.25f) switch
        {
            0 => DrawSpots(context),
            1 => DrawBloom(context),
            _ => DrawEdge(context),
        };
        if (random.Chance(0.7f))
        {
            Bubble(context, amount);
        }

        if (random.Chance(0.65f))
        {
            Run(context, amount);
        }

        Lay(context, amount);
    }

    // Each plane: 0 sound, 0.5 rim of the rust, 1 and more heart of it.
    private static Plane DrawSpots(PanelContext context)
    {
        var random = context.Random;
        var amount = new Plane(context.Width, context.Height);
        var radius = context.SizePx(1.5f, 14f, 6f, 50f);
        var most = Math.Clamp(12000f * context.PxScale * context.PxScale / (radius * radius), 3f, 60f);
        var count = (int)random.LogUniform(3f, most);
        var placement = new Placement(random, context.Width, context.Height);
        var jag = context.Field(MathF.Max(4f, radius * 0.6f), 4, 0.65f);
        for (var i = 0; i < count; i++)
        {
            var (x, y) = placement.Next();
            var size = i == 0 ? radius : MathF.Max(2.5f * context.PxScale, radius * random.LogUniform(0.25f, 1.2f));
            var blob = new Blob(random, x, y, size, random.Uniform(0.2f, 0.6f), random.LogUniform(1f, 1.8f));
            var box = PixelBox.Around(x, y, blob.ReachPx * 1.8f, context.Width, context.Height);
            for (var py = box.Y0; py < box.Y1; py++)
            {
                for (var px = box.X0; px < box.X1; px++)
                {
                    var value = 1.5f - blob.Share(px, py) + (0.2f * jag[px, py]);
                    amount[px, py] = MathF.Max(amount[px, py], value);
                }
            }
        }

        return amount;
    }

    private static Plane DrawBloom(PanelContext context)
    {
        var random = context.Random;
        var field = context.Field(random.LogUniform(0.08f, 0.4f) * context.Side, 6, random.Uniform(0.5f, 0.68f));
        var region = context.Region(0.15f);
        var threshold = random.Uniform(0.3f, 1.2f);
        for (var at = 0; at < field.Values.Length; at++)
        {
            field.Values[at] = MathF.Max(0f, (0.5f + ((field.Values[at] - threshold) * 0.9f)) - (1.2f * (1f - region.Values[at])));
        }

        return field;
    }

    private static Plane DrawEdge(PanelContext context)
    {
        var random = context.Random;
        var field = context.Field(context.Side * random.Uniform(0.08f, 0.25f), 5, 0.62f);
        var angle = random.Chance(0.6f) ? 0.5f * MathF.PI : random.Angle();
        var nx = MathF.Cos(angle);
        var ny = MathF.Sin(angle);
        var offset = (nx * context.Width * random.Uniform(0.3f, 0.8f)) + (ny * context.Height * random.Uniform(0.3f, 0.8f));
        var reach = random.LogUniform(0.05f, 0.25f) * context.Side;
        for (var y = 0; y < context.Height; y++)
        {
            for (var x = 0; x < context.Width; x++)
            {
                var distance = MathF.Abs((x * nx) + (y * ny) - offset) / reach;
                field[x, y] = MathF.Max(0f, 1.1f - distance + (0.45f * field[x, y]));
            }
        }

        return field;
    }

    private static void Bubble(PanelContext context, Plane amount)
    {
        var random = context.Random;
        var wide = Blur.Soft(amount, random.LogUniform(3f, 10f) * context.PxScale);
        var bubbles = context.Field(random.LogUniform(3f, 10f) * context.PxScale, 2);
        var height = random.LogUniform(0.5f, 2f) * context.PxScale * context.Surface.MmPerPx;
        for (var at = 0; at < amount.Values.Length; at++)
        {
            var near = Ramp.Smooth(0.1f, 0.5f, wide.Values[at]);
            context.Surface.HeightMm.Values[at] += height * near * (0.6f + MathF.Max(0f, bubbles.Values[at]));
        }
    }

    private static void Run(PanelContext context, Plane amount)
    {
        var random = context.Random;
        var streak = new Plane(context.Width, context.Height);
        var keep = MathF.Exp(-1f / (random.LogUniform(0.05f, 0.4f) * context.Side));
        var noise = context.Field(6f * context.PxScale, 3, 0.6f, 1f / 12f);
        for (var y = 1; y < context.Height; y++)
        {
            for (var x = 0; x < context.Width; x++)
            {
                var source = Ramp.Smooth(0.5f, 1f, amount[x, y]) * Ramp.Smooth(0f, 1.4f, noise[x, y]);
                streak[x, y] = MathF.Max(source, keep * streak[x, y - 1]);
            }
        }

        Blur.InPlace(streak, 1.2f * context.PxScale);
        var color = Rgb.Display(0.6f, 0.37f, 0.17f) * random.Uniform(0.5f, 1.3f);
        var opacity = random.Uniform(0.25f, 0.75f);
        for (var at = 0; at < streak.Values.Length; at++)
        {
            context.Surface.Tint(at, color, opacity * streak.Values[at]);
            context.Surface.MarkDefect(at, opacity * streak.Values[at]);
        }
    }

    private static void Lay(PanelContext context, Plane amount)
    {
        var random = context.Random;
        var surface = context.Surface;
        var mottling = context.Field(random.LogUniform(5f, 40f) * context.PxScale, 5, random.Uniform(0.5f, 0.68f));
        var grain = context.Field(3f * context.PxScale, 2, 0.7f);
        var level = random.Uniform(0.5f, 1.3f);
        var muting = random.Uniform(0.05f, 0.55f);
        var contrast = random.Uniform(0.08f, 0.26f);
        var middle = random.Uniform(0.3f, 0.6f);
        var pit = random.LogUniform(0.1f, 0.5f) * context.PxScale * surface.MmPerPx;
        for (var at = 0; at < amount.Values.Length; at++)
        {
            var value = amount.Values[at];
            var coverage = Ramp.Smooth(0.35f, 0.65f, value + (0.1f * mottling.Values[at]));
            if (coverage <= 0f)
            {
                continue;
            }

            var shade = Tone(middle + (contrast * mottling.Values[at]) - (0.25f * (value - 0.7f))) * level;
            shade = Rgb.Mix(shade, Rgb.Gray(shade.Luminance), muting);
            surface.Cover(at, new Coat(shade.Clamp(0.005f, 0.8f), 0f, 0.012f, 0.8f), coverage);
            surface.HeightMm.Values[at] += pit * grain.Values[at] * coverage;
            surface.MarkDefect(at, coverage);
        }
    }

    // From nearly black scale through red brown to orange and yellow brown dust.
    private static Rgb Tone(float t)
    {
        ReadOnlySpan<Rgb> stops =
        [
            Rgb.Display(0.15f, 0.09f, 0.07f), Rgb.Display(0.32f, 0.16f, 0.1f), Rgb.Display(0.5f, 0.26f, 0.12f),
            Rgb.Display(0.66f, 0.38f, 0.17f), Rgb.Display(0.78f, 0.56f, 0.32f),
        ];
        var position = Math.Clamp(t, 0f, 0.999f) * (stops.Length - 1);
        var first = (int)position;
        return Rgb.Mix(stops[first], stops[first + 1], position - first);
    }
}
