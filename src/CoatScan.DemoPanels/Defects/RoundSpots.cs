using CoatScan.DemoPanels.Paint;
using CoatScan.DemoPanels.Surface;

namespace CoatScan.DemoPanels.Defects;

/// <summary>Spots on or in the film: mineral residue, etching, tar, sap, splashes.</summary>
internal static class RoundSpots
{
    private enum Kind
    {
        Mineral,
        Etch,
        Tar,
        Sap,
        Splash,
        Bleached,
    }

    public static void Paint(PanelContext context)
    {
        var random = context.Random;
        var kind = (Kind)random.Weighted(3f, 2.5f, 2f, 1.5f, 1f, 1.5f);
        var radius = context.SizePx(0.8f, 7f, 4f, 42f);
        var count = Math.Clamp((int)random.LogUniform(4f, 160f / MathF.Max(1f, radius * radius / (60f * context.PxScale * context.PxScale))), 3, 140);
        var placement = new Placement(random, context.Width, context.Height);
        var irregularity = kind == Kind.Splash ? random.Uniform(0.35f, 0.7f) : random.Uniform(0.03f, 0.3f);
        var texture = context.Field(MathF.Max(3f, radius * 0.5f), 3, 0.6f);
        var look = DrawLook(random, kind, context.Coats.Paint.Albedo);
        for (var i = 0; i < count; i++)
        {
            var (x, y) = placement.Next();
            var size = i == 0 ? radius : MathF.Max(2.2f * context.PxScale, radius * random.LogUniform(0.4f, 1.4f));
            var blob = new Blob(
                random, x, y, size, irregularity, random.LogUniform(1f, 1.4f), kind == Kind.Splash ? 9 : 4);
            Lay(context, blob, look, texture, random.Uniform(0.75f, 1f));
        }
    }

    private static Look DrawLook(PanelRandom random, Kind kind, Rgb paint)
    {
        var dark = paint.Luminance < 0.25f;
        return kind switch
        {
            Kind.Mineral => new Look(Vary(random, Rgb.Display(0.9f, 0.9f, 0.87f)), dark ? 0.4f : 0.7f, 0.5f, 0.03f, 0.03f, 0.5f),
            Kind.Etch => new Look(paint * random.Uniform(0.45f, 0.7f), 0.6f, 0.25f, -0.06f, 0.04f, 0.3f),
            Kind.Tar => new Look(Rgb.Display(0.09f, 0.07f, 0.05f), 0.95f, 0.06f, 0.25f, 0.04f, 0.1f),
            Kind.Sap => new Look(Rgb.Display(0.72f, 0.5f, 0.18f) * random.Uniform(0.5f, 1.1f), 0.6f, 0.02f, 0.4f, 0.045f, 0.15f),
            Kind.Splash => new Look(Vary(random, Rgb.Display(0.88f, 0.87f, 0.8f)), 0.85f, 0.5f, 0.12f, 0.02f, 0.4f),
            _ => new Look(Rgb.Mix(paint, Rgb.Gray(0.7f), random.Uniform(0.35f, 0.7f)), 0.85f, 0.1f, 0f, 0.035f, 0.25f),
        };
    }

    private static Rgb Vary(PanelRandom random, Rgb color) =>
        new Rgb(color.R * (1f + (0.08f * random.Gaussian())), color.G, color.B * (1f + (0.1f * random.Gaussian()))).Clamp(0.05f, 0.9f);

    private static void Lay(PanelContext context, Blob blob, Look look, Metrics.Plane texture, float share)
    {
        var surface = context.Surface;
        var box = PixelBox.Around(blob.CenterX, blob.CenterY, blob.ReachPx + 3f, context.Width, context.Height);
        var crown = look.Slope * blob.RadiusPx * surface.MmPerPx * 0.6f;
        for (var y = box.Y0; y < box.Y1; y++)
        {
            for (var x = box.X0; x < box.X1; x++)
            {
                var at = (y * surface.Width) + x;
                var distance = blob.DistancePx(x, y) + (0.12f * blob.RadiusPx * texture.Values[at]);
                var inside = Ramp.Smooth(0.9f, -0.9f, distance);
                if (inside <= 0f)
                {
                    continue;
                }

                var patchy = 1f - (look.Mottling * Ramp.Smooth(-0.4f, 1.4f, texture.Values[at]));
                var opacity = MathF.Min(1f, look.Opacity * share * patchy * (0.8f + (0.2f * context.Strength)));
                surface.Cover(at, new Coat(look.Color, 0f, look.SpecularF0, look.RoughnessUm), inside * opacity);
                var depth = Math.Clamp(-distance / blob.RadiusPx, 0f, 1f);
                surface.HeightMm.Values[at] += crown * depth * (2f - depth);
                surface.MarkDefect(at, inside);
            }
        }
    }

    private sealed record Look(Rgb Color, float Opacity, float RoughnessUm, float Slope, float SpecularF0, float Mottling);
}
