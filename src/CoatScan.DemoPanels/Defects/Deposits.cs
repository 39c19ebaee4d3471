using CoatScan.DemoPanels.Paint;
using CoatScan.DemoPanels.Surface;

namespace CoatScan.DemoPanels.Defects;

/// <summary>Foreign matter that sits on the film: mineral crust of dried drops, tar, sap, splashes, droppings.</summary>
internal static class Deposits
{
    private enum Kind
    {
        Mineral,
        Tar,
        Sap,
        Splash,
    }

    public static void Paint(PanelContext context)
    {
        var random = context.Random;
        var kind = (Kind)random.Weighted(3f, 2f, 2f, 1f);
        var radius = context.SizePx(0.8f, kind == Kind.Splash ? 14f : 7f, 4f, kind == Kind.Splash ? 60f : 42f);
        var painter = new SpotPainter(context, DrawLook(random, kind, context.Coats.Paint.Albedo), radius);
        var count = SpotPainter.DrawCount(context, radius);
        var placement = new Placement(random, context.Width, context.Height);
        var irregularity = kind == Kind.Splash ? random.Uniform(0.35f, 0.6f) : random.Uniform(0.02f, 0.14f);
        for (var i = 0; i < count; i++)
        {
            var (x, y) = placement.Next();
            var size = i == 0 ? radius : MathF.Max(2.2f * context.PxScale, radius * random.LogUniform(0.4f, 1.4f));
            var blob = new Blob(
                random, x, y, size, irregularity, kind == Kind.Splash ? random.LogUniform(1.5f, 4f) : random.LogUniform(1f, 1.25f), kind == Kind.Splash ? 9 : 4);
            painter.Lay(blob, random.Uniform(0.75f, 1f));
        }
    }

    private static SpotLook DrawLook(PanelRandom random, Kind kind, Rgb paint) => kind switch
    {
        Kind.Mineral => new SpotLook(
            Vary(random, Rgb.Display(0.9f, 0.9f, 0.87f)), paint.Luminance < 0.25f ? 0.5f : 0.8f, 0.5f, 0.25f, 0.03f, 0.5f, random.Uniform(0.1f, 0.4f)),
        Kind.Tar => new SpotLook(Rgb.Display(0.09f, 0.07f, 0.05f), 0.97f, 0.06f, 0.5f, 0.04f, 0.1f),
        Kind.Sap => new SpotLook(Rgb.Display(0.72f, 0.5f, 0.18f) * random.Uniform(0.5f, 1.1f), 0.7f, 0.02f, 0.6f, 0.045f, 0.15f),
        _ => new SpotLook(Vary(random, Rgb.Display(0.88f, 0.87f, 0.8f)), 0.92f, 0.5f, 0.4f, 0.02f, 0.3f),
    };

    private static Rgb Vary(PanelRandom random, Rgb color) =>
        new Rgb(color.R * (1f + (0.08f * random.Gaussian())), color.G, color.B * (1f + (0.1f * random.Gaussian()))).Clamp(0.05f, 0.9f);
}
