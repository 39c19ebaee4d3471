using CoatScan.DemoPanels.Paint;
using CoatScan.DemoPanels.Surface;

namespace CoatScan.DemoPanels.Clutter;

/// <summary>Fasteners: rivets, screws, holes, in rows or alone.</summary>
internal static class Hardware
{
    private enum Kind
    {
        FlushRivet,
        DomeRivet,
        SlotScrew,
        CrossScrew,
        Hole,
    }

    public static void Lay(PanelContext context)
    {
        var random = context.Random;
        var rows = random.Whole(1, 4);
        for (var row = 0; row < rows; row++)
        {
            LayRow(context);
        }
    }

    private static void LayRow(PanelContext context)
    {
        var random = context.Random;
        var kind = (Kind)random.Weighted(3f, 1.5f, 1f, 1f, 1f);
        var radius = context.SizePx(2.2f, 5f, 4f, 26f);
        var pitch = radius * random.Uniform(3.5f, 14f);
        var angle = random.Chance(0.7f) ? random.Whole(0, 2) * 0.5f * MathF.PI : random.Angle();
        angle += 0.06f * random.Gaussian();
        var x0 = random.Uniform(0.05f, 0.95f) * context.Width;
        var y0 = random.Uniform(0.05f, 0.95f) * context.Height;
        var count = random.Chance(0.3f) ? 1 : random.Whole(2, 18);
        var stain = random.Chance(0.3f) ? random.Uniform(0.2f, 0.7f) : 0f;
        var own = random.Chance(0.3f);
        for (var i = 0; i < count; i++)
        {
            if (random.Chance(0.06f))
            {
                continue;
            }

            var along = (i - (count * 0.4f)) * pitch;
            var x = x0 + (along * MathF.Cos(angle)) + (0.05f * radius * random.Gaussian());
            var y = y0 + (along * MathF.Sin(angle)) + (0.05f * radius * random.Gaussian());
            LayOne(context, kind, x, y, radius, stain, own);
        }
    }

    private static void LayOne(PanelContext context, Kind kind, float x, float y, float radius, float stain, bool isBare)
    {
        var surface = context.Surface;
        var turn = context.Random.Angle();
        var cos = MathF.Cos(turn);
        var sin = MathF.Sin(turn);
        var mm = surface.MmPerPx;
        var metal = context.Coats.Metal;
        var groove = MathF.Max(1f, radius * 0.1f);
        var depth = context.Random.LogUniform(0.15f, 0.7f);
        var warm = Rgb.Display(0.42f, 0.3f, 0.2f);
        var box = PixelBox.Around(x, y, radius * 2f, context.Width, context.Height);
        for (var py = box.Y0; py < box.Y1; py++)
        {
            for (var px = box.X0; px < box.X1; px++)
            {
                var at = (py * surface.Width) + px;
                var dx = px - x;
                var dy = py - y;
                var distance = MathF.Sqrt((dx * dx) + (dy * dy));
                var rim = 1f - MathF.Min(1f, MathF.Abs(distance - radius) / groove);
                var inside = Ramp.Smooth(radius + 0.7f, radius - 0.7f, distance);
                if (stain > 0f)
                {
                    surface.Tint(at, warm, stain * 0.6f * Ramp.Smooth(groove * 3.5f, 0f, MathF.Abs(distance - radius)));
                }

                switch (kind)
                {
                    case Kind.Hole:
                        surface.Cover(at, new Coat(Rgb.Gray(0.008f), 0f, 0.005f, 0.5f), inside);
                        surface.HeightMm.Values[at] -= depth * mm * rim * groove;
                        continue;
                    case Kind.DomeRivet:
                        var share = 1f - (distance * distance / (radius * radius));
                        surface.HeightMm.Values[at] += 0.5f * depth * radius * mm * MathF.Sqrt(MathF.Max(0f, share));
                        break;
                    default:
                        surface.HeightMm.Values[at] -= depth * mm * rim * groove * 0.6f;
                        break;
                }

                if (isBare && kind != Kind.FlushRivet)
                {
                    surface.Cover(at, metal, inside * 0.9f);
                }

                if (kind is Kind.SlotScrew or Kind.CrossScrew)
                {
                    var along = MathF.Abs((dx * cos) + (dy * sin));
                    var across = MathF.Abs((dy * cos) - (dx * sin));
                    var slot = Bar(along, across, radius * 0.75f, radius * 0.13f);
                    if (kind == Kind.CrossScrew)
                    {
                        slot = MathF.Max(
                            Bar(along, across, radius * 0.5f, radius * 0.13f), Bar(across, along, radius * 0.5f, radius * 0.13f));
                    }

                    surface.Tint(at, Rgb.Gray(0.015f), 0.9f * slot);
                    surface.HeightMm.Values[at] -= 0.5f * mm * slot;
                    surface.Tint(at, Rgb.Gray(0.03f), 0.7f * rim * inside);
                }
            }
        }
    }

    private static float Bar(float along, float across, float half, float halfWidth) =>
        Ramp.Smooth(half + 0.6f, half - 0.6f, along) * Ramp.Smooth(halfWidth + 0.6f, halfWidth - 0.6f, across);
}
