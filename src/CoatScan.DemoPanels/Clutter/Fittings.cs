using CoatScan.DemoPanels.Paint;
using CoatScan.DemoPanels.Surface;

namespace CoatScan.DemoPanels.Clutter;

/// <summary>Parts that stand on or in a panel: handles, hinges, vents, plates, lamps, plugs, in rows or alone.</summary>
internal static class Fittings
{
    public static void LayRoundParts(PanelContext context)
    {
        var random = context.Random;
        var part = OddPart.Draw(context);
        if (random.Chance(0.55f))
        {
            foreach (var (x, y) in SeamLine.Draw(context, 0.15f).Row(0f, part.RadiusPx * random.Uniform(2.6f, 12f)))
            {
                Lay(context, part, x, y);
            }

            return;
        }

        for (var i = random.Whole(1, 5); i > 0; i--)
        {
            Lay(context, part, random.Uniform() * context.Width, random.Uniform() * context.Height);
        }
    }

    public static void LayBoxes(PanelContext context)
    {
        for (var i = context.Random.Whole(1, 3); i > 0; i--)
        {
            LayBox(context);
        }
    }

    private static void Lay(PanelContext context, OddPart part, float x, float y)
    {
        part.Lay(context, x, y);
        context.Anchors.Add(x, y);
    }

    private static void LayBox(PanelContext context)
    {
        var random = context.Random;
        var surface = context.Surface;
        var halfX = random.LogUniform(0.04f, 0.3f) * context.Side;
        var halfY = halfX * random.LogUniform(0.12f, 1f);
        var corner = MathF.Min(halfX, halfY) * random.Uniform(0.05f, 1f);
        var angle = random.Chance(0.6f) ? random.Whole(0, 2) * 0.5f * MathF.PI : random.Angle();
        var (cos, sin) = (MathF.Cos(angle), MathF.Sin(angle));
        var x0 = random.Uniform(0f, 1f) * context.Width;
        var y0 = random.Uniform(0f, 1f) * context.Height;
        var coat = random.Weighted(0.45f, 0.2f, 0.2f, 0.15f) switch
        {
            0 => context.Coats.Coats[0],
            1 => context.Coats.Metal,
            2 => new Coat(Rgb.Gray(random.LogUniform(0.006f, 0.08f)), 0f, 0.03f, 0.2f),
            _ => new Coat(PaintPalette.Draw(random).Albedo, 0f, 0.04f, 0.05f),
        };
        var rimPx = random.LogUniform(1.2f, 12f) * context.PxScale;
        var heightMm = rimPx * surface.MmPerPx * random.LogUniform(0.1f, 0.9f) * (random.Chance(0.75f) ? 1f : -1f);
        var shadow = random.Uniform(0f, 0.6f);
        var shadowPx = random.LogUniform(1.5f, 14f) * context.PxScale;
        var (shiftX, shiftY) = (shadowPx * random.Gaussian() * 0.5f, shadowPx * random.Gaussian() * 0.5f);
        var slats = random.Chance(0.3f) ? random.LogUniform(0.1f, 0.5f) * halfY : 0f;
        var reach = MathF.Sqrt((halfX * halfX) + (halfY * halfY)) + (3f * shadowPx);
        var box = PixelBox.Around(x0, y0, reach, context.Width, context.Height);
        for (var y = box.Y0; y < box.Y1; y++)
        {
            for (var x = box.X0; x < box.X1; x++)
            {
                var at = (y * surface.Width) + x;
                var distance = Distance(x - x0, y - y0);
                if (distance < 0f)
                {
                    surface.Cover(at, coat, Ramp.Smooth(0.5f, -0.5f, distance));
                    surface.HeightMm.Values[at] += heightMm * Ramp.Smooth(0f, rimPx, -distance);
                    if (slats > 0f && distance < -rimPx)
                    {
                        LaySlat(surface, at, (((y - y0) * cos) - ((x - x0) * sin)) / slats);
                    }
                }
                else
                {
                    var dark = shadow * MathF.Exp(-MathF.Max(0f, Distance(x - x0 - shiftX, y - y0 - shiftY)) / shadowPx);
                    surface.Light.Values[at] *= 1f - dark;
                }
            }
        }

        float Distance(float dx, float dy) =>
            SeamLine.RoundedBox((dx * cos) + (dy * sin), (dy * cos) - (dx * sin), halfX, halfY, corner);
    }

    private static void LaySlat(PanelSurface surface, int at, float across)
    {
        var phase = across - MathF.Floor(across);
        surface.SetAlbedo(at, surface.Albedo(at) * (1f - (0.85f * Ramp.Smooth(0.55f, 0.7f, phase) * Ramp.Smooth(1f, 0.9f, phase))));
    }
}
