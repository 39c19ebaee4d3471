using CoatScan.DemoPanels.Paint;
using CoatScan.DemoPanels.Surface;

namespace CoatScan.DemoPanels.Defects;

/// <summary>Uneven lightness of a color coat: clouds of flake, or stripes in the rhythm of the gun's passes.</summary>
internal static class Mottling
{
    public static void Paint(PanelContext context)
    {
        var random = context.Random;
        var surface = context.Surface;
        var field = random.Chance(0.5f) ? DrawClouds(context) : DrawStripes(context);
        var region = context.Region(0.6f);
        var amount = MathF.Min(0.5f, random.LogUniform(0.12f, 0.28f) * context.Strength);
        var warmth = 0.25f * amount * random.Gaussian();
        for (var at = 0; at < field.Values.Length; at++)
        {
            var change = amount * Math.Clamp(field.Values[at], -1.6f, 1.6f) * region.Values[at];
            var color = surface.Albedo(at);
            var level = MathF.Max(0.3f, 1f + change);
            var tint = warmth * field.Values[at] * region.Values[at];
            surface.SetAlbedo(at, new Rgb(color.R * level * (1f + tint), color.G * level, color.B * level * (1f - tint)).Clamp(0.004f, 0.95f));
            surface.MarkDefect(at, Ramp.Smooth(0.2f, 0.6f, region.Values[at]));
        }
    }

    private static Metrics.Plane DrawClouds(PanelContext context) =>
        context.Field(context.Random.LogUniform(10f, 60f) * context.PxScale, 2, 0.5f, context.Random.LogUniform(0.6f, 1.7f));

    private static Metrics.Plane DrawStripes(PanelContext context)
    {
        var random = context.Random;
        var period = random.LogUniform(24f, 130f) * context.PxScale;
        var angle = random.Chance(0.7f) ? (0.5f * MathF.PI) + (0.08f * random.Gaussian()) : random.Angle();
        var drift = context.Field(context.Side * 0.4f, 2);
        var uneven = context.Field(context.Side * 0.3f, 2);
        var cos = MathF.Cos(angle);
        var sin = MathF.Sin(angle);
        var phase = random.Angle();
        var stripes = new Metrics.Plane(context.Width, context.Height);
        for (var y = 0; y < context.Height; y++)
        {
            for (var x = 0; x < context.Width; x++)
            {
                var along = (((x * cos) + (y * sin)) / period) + (0.12f * drift[x, y]);
                stripes[x, y] = (1.25f + (0.3f * uneven[x, y])) * MathF.Sin((2f * MathF.PI * along) + phase);
            }
        }

        return stripes;
    }
}
