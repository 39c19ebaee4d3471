using CoatScan.DemoPanels.Surface;

namespace CoatScan.DemoPanels.Clutter;

/// <summary>Uneven light: fall-off of a lamp, gradients, soft bands, shadows of things outside the picture.</summary>
internal static class Shadows
{
    public static void Lay(PanelContext context)
    {
        var random = context.Random;
        if (random.Chance(0.5f))
        {
            LayGradient(context);
        }

        if (random.Chance(0.15f))
        {
            LayLamp(context);
        }

        if (random.Chance(0.3f))
        {
            LayEdge(context);
        }

        if (random.Chance(0.05f))
        {
            LayDapple(context);
        }
    }

    private static void LayGradient(PanelContext context)
    {
        var x = 0.25f * context.Random.Gaussian();
        var y = 0.25f * context.Random.Gaussian();
        Multiply(context, (u, v) => Math.Clamp(1f + (x * u) + (y * v), 0.3f, 2f));
    }

    private static void LayLamp(PanelContext context)
    {
        var x = context.Random.Uniform(-0.6f, 0.6f);
        var y = context.Random.Uniform(-0.6f, 0.6f);
        var reach = context.Random.LogUniform(0.4f, 2f);
        Multiply(context, (u, v) => 0.25f + (1.3f / (1f + ((((u - x) * (u - x)) + ((v - y) * (v - y))) / reach))));
    }

    private static void LayEdge(PanelContext context)
    {
        var random = context.Random;
        var angle = random.Angle();
        var cos = MathF.Cos(angle);
        var sin = MathF.Sin(angle);
        var offset = random.Uniform(-0.8f, 0.8f);
        var softness = random.LogUniform(0.015f, 0.6f);
        var loss = random.Uniform(0.15f, 0.6f);
        var second = random.Chance(0.3f) ? random.Uniform(0.15f, 0.7f) : 9f;
        var waver = context.Field(context.Side * random.Uniform(0.15f, 0.6f), 2);
        var amount = random.Chance(0.5f) ? 0f : random.Uniform(0.02f, 0.2f);
        for (var py = 0; py < context.Height; py++)
        {
            for (var px = 0; px < context.Width; px++)
            {
                var u = ((2f * px) / context.Width) - 1f;
                var v = ((2f * py) / context.Height) - 1f;
                var d = (u * cos) + (v * sin) - offset + (amount * waver[px, py]);
                context.Surface.Light[px, py] *= 1f - (loss * Ramp.Smooth(-softness, softness, d) * Ramp.Smooth(softness, -softness, d - second));
            }
        }
    }

    // Light through leaves.
    private static void LayDapple(PanelContext context)
    {
        var random = context.Random;
        var leaves = context.Field(random.LogUniform(0.05f, 0.2f) * context.Side, 3, 0.55f);
        var softness = random.LogUniform(0.4f, 1.6f);
        var threshold = random.Uniform(-0.5f, 0.6f);
        var loss = random.Uniform(0.15f, 0.5f);
        for (var at = 0; at < leaves.Values.Length; at++)
        {
            context.Surface.Light.Values[at] *= 1f - (loss * Ramp.Smooth(threshold, threshold + softness, leaves.Values[at]));
        }
    }

    private static void Multiply(PanelContext context, Func<float, float, float> factor)
    {
        for (var y = 0; y < context.Height; y++)
        {
            var v = ((2f * y) / context.Height) - 1f;
            var row = context.Surface.Light.Row(y);
            for (var x = 0; x < row.Length; x++)
            {
                row[x] *= factor(((2f * x) / context.Width) - 1f, v);
            }
        }
    }
}
