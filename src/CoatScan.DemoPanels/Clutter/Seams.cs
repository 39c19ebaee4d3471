using CoatScan.DemoPanels.Paint;
using CoatScan.DemoPanels.Surface;

namespace CoatScan.DemoPanels.Clutter;

/// <summary>Gaps between panels, covers with rounded corners, pressed lines and ribs, rubber trim.</summary>
internal static class Seams
{
    /// <summary>A gap between two sheets, or a lap joint; the film fails first along it.</summary>
    public static void LayGap(PanelContext context, SeamLine line)
    {
        var random = context.Random;
        var width = context.SizePx(0.5f, 4.5f, 1.2f, 9f);
        var distance = line.DistancePx(context.Width, context.Height);
        var gap = new Coat(Rgb.Gray(random.LogUniform(0.004f, 0.03f)), 0f, 0.01f, 0.5f);
        var dirt = Rgb.Display(0.4f, 0.33f, 0.25f) * random.Uniform(0.3f, 1f);
        var soil = random.Chance(0.5f) ? random.Uniform(0.1f, 0.6f) : 0f;
        var round = width * random.Uniform(0.4f, 1.6f);
        var fall = random.LogUniform(0.2f, 1f) * round * context.Surface.MmPerPx;
        var lap = random.Chance(0.35f) ? random.LogUniform(0.3f, 2f) : 0f;
        foreach (var (x, y) in line.Row(-width, 0.05f * context.Side))
        {
            context.Anchors.Add(x, y);
        }

        for (var at = 0; at < distance.Values.Length; at++)
        {
            // One sheet lies over the other.
            context.Surface.HeightMm.Values[at] += distance.Values[at] < 0f ? lap : 0f;
            var d = MathF.Abs(distance.Values[at]);
            if (d > (width * 4f) + round)
            {
                continue;
            }

            // Both sheets bend down into the gap.
            var bend = MathF.Max(0f, 1f - ((d - (0.5f * width)) / round));
            context.Surface.HeightMm.Values[at] -= fall * MathF.Min(1f, bend * bend);
            context.Surface.Tint(at, dirt, soil * Ramp.Smooth(width * 3f, width * 0.5f, d));
            context.Surface.Cover(at, gap, Ramp.Smooth((0.5f * width) + 0.7f, (0.5f * width) - 0.7f, d));
        }
    }

    /// <summary>A pressed line: the sheet turns by a small angle along it, or steps.</summary>
    public static void LayCrease(PanelContext context)
    {
        var random = context.Random;
        var distance = SeamLine.Draw(context).DistancePx(context.Width, context.Height);
        var radius = context.SizePx(3f, 25f, 4f, 60f);
        var turn = random.LogUniform(0.05f, 0.35f) * (random.Chance(0.5f) ? 1f : -1f);
        var isStep = random.Chance(0.4f);
        var mm = context.Surface.MmPerPx;
        for (var at = 0; at < distance.Values.Length; at++)
        {
            var d = distance.Values[at] / radius;
            var rise = isStep ? 2f * Ramp.Smooth(-1f, 1f, d) : MathF.Sqrt(1f + (d * d));
            context.Surface.HeightMm.Values[at] += turn * radius * mm * rise;
        }
    }

    /// <summary>Parallel pressed ribs.</summary>
    public static void LayRibs(PanelContext context)
    {
        var random = context.Random;
        var angle = random.Chance(0.8f) ? random.Whole(0, 2) * 0.5f * MathF.PI : random.Angle();
        var cos = MathF.Cos(angle);
        var sin = MathF.Sin(angle);
        var pitch = context.SizePx(25f, 90f, 30f, 200f);
        var slope = random.LogUniform(0.05f, 0.3f);
        var sharp = random.Uniform(1f, 4f);
        for (var y = 0; y < context.Height; y++)
        {
            for (var x = 0; x < context.Width; x++)
            {
                var wave = MathF.Sin(((x * cos) + (y * sin)) * 2f * MathF.PI / pitch);
                context.Surface.HeightMm[x, y] += slope * pitch * context.Surface.MmPerPx * 0.12f * Math.Clamp(wave * sharp, -1f, 1f);
            }
        }

        // Stamped flanks are never steeper than the sheet's own thickness allows.
        Blur.InPlace(context.Surface.HeightMm, MathF.Max(1.5f, pitch * 0.04f));
    }

    /// <summary>A dark rubber or plastic strip, or a bright molding.</summary>
    public static void LayTrim(PanelContext context)
    {
        var random = context.Random;
        var half = 0.5f * context.SizePx(5f, 25f, 8f, 50f);
        var distance = SeamLine.Draw(context).DistancePx(context.Width, context.Height);
        var coat = random.Chance(0.7f)
            ? new Coat(Rgb.Gray(random.LogUniform(0.01f, 0.05f)), 0f, 0.03f, random.Uniform(0.1f, 0.4f))
            : new Coat(Rgb.Gray(0.12f), 0f, 0.5f, 0.05f);
        var crown = random.Uniform(0.3f, 0.9f) * half * context.Surface.MmPerPx;
        for (var at = 0; at < distance.Values.Length; at++)
        {
            var d = MathF.Abs(distance.Values[at]) / half;
            if (d < 1.2f)
            {
                context.Surface.HeightMm.Values[at] += crown * MathF.Sqrt(MathF.Max(0f, 1f - (d * d)));
                context.Surface.Cover(at, coat, Ramp.Smooth(half + 0.7f, half - 0.7f, d * half));
            }
        }
    }
}
