using CoatScan.DemoPanels.Surface;
using CoatScan.Metrics;

namespace CoatScan.DemoPanels.Clutter;

/// <summary>Where the panel ends inside the picture.</summary>
internal static class PanelBorder
{
    /// <summary>Signed distance to the panel's edge, pixels, positive on the panel; rounds the panel's rim.</summary>
    public static Plane Cut(PanelContext context, bool isWhole)
    {
        var random = context.Random;
        var inside = new Plane(context.Width, context.Height);
        var angle = (isWhole ? 0f : random.Angle()) + (0.12f * random.Gaussian());
        var cos = MathF.Cos(angle);
        var sin = MathF.Sin(angle);
        var offset = random.Uniform(0.15f, 0.42f) * context.Side;
        var bend = random.Chance(0.4f) ? 0f : 0.35f * random.Gaussian() / context.Side;
        var halfX = random.Uniform(0.3f, 0.46f) * context.Width;
        var halfY = random.Uniform(0.3f, 0.46f) * context.Height;
        var corner = MathF.Min(halfX, halfY) * random.LogUniform(0.05f, 0.9f);
        var centerX = (0.5f * context.Width) + (isWhole ? 0.03f * context.Width * random.Gaussian() : 0f);
        var centerY = (0.5f * context.Height) + (isWhole ? 0.03f * context.Height * random.Gaussian() : 0f);
        for (var y = 0; y < context.Height; y++)
        {
            for (var x = 0; x < context.Width; x++)
            {
                var along = ((x - centerX) * cos) + ((y - centerY) * sin);
                var across = ((y - centerY) * cos) - ((x - centerX) * sin);
                inside[x, y] = isWhole
                    ? -SeamLine.RoundedBox(along, across, halfX, halfY, corner)
                    : offset - across + (bend * along * along);
            }
        }

        var rim = random.LogUniform(2f, 12f) * context.PxScale;
        var fall = random.Uniform(0.2f, 0.9f) * rim * context.Surface.MmPerPx;
        for (var at = 0; at < inside.Values.Length; at++)
        {
            var share = Math.Clamp(1f - (inside.Values[at] / rim), 0f, 1f);
            context.Surface.HeightMm.Values[at] -= fall * share * share;
        }

        return inside;
    }
}
