using CoatScan.DemoPanels.Paint;
using CoatScan.DemoPanels.Surface;

namespace CoatScan.DemoPanels.Light;

/// <summary>Draws surroundings for each kind of light.</summary>
internal static class SurroundingsPalette
{
    public static LightKind DrawKind(PanelRandom random) => (LightKind)random.Weighted(28f, 20f, 16f, 10f, 8f, 10f, 8f);

    /// <param name="random">Source of the layout.</param>
    /// <param name="kind">Kind of light.</param>
    /// <param name="centerU">Where the middle of the photo looks, environment coordinate.</param>
    /// <param name="centerV">The same, downward.</param>
    /// <param name="spanU">Half the width of what the flat panel mirrors: shapes are laid where the photo can show them.</param>
    public static Surroundings Draw(PanelRandom random, LightKind kind, float centerU, float centerV, float spanU)
    {
        var shapes = new List<LightShape>();
        var reach = MathF.Max(0.35f, spanU * 1.4f);
        var sky = Sky(random, kind, out var zenith);
        var ground = Tone(random, kind is LightKind.StripLights or LightKind.Softbox ? 0.06f : 0.16f, 0.5f);
        AddBodies(random, shapes, centerU, centerV, reach);
        switch (kind)
        {
            case LightKind.StripLights:
                AddStrips(random, shapes, centerU, centerV, reach);
                break;
            case LightKind.Window:
                AddWindow(random, shapes, centerU, centerV, reach);
                break;
            case LightKind.Softbox:
                AddSoftboxes(random, shapes, centerU, centerV, reach);
                break;
            case LightKind.Sun:
                AddDisc(random, shapes, centerU, centerV, reach, random.LogUniform(15f, 120f), new Rgb(1f, 0.96f, 0.88f));
                break;
            case LightKind.WarmLamp:
                AddDisc(random, shapes, centerU, centerV, reach, random.LogUniform(6f, 30f), new Rgb(1.1f, 0.85f, 0.5f));
                break;
            default:
                break;
        }

        var skyline = Noise.Line(random, 256, random.LogUniform(6f, 60f), 4);
        var rise = random.Chance(0.3f) ? 0f : random.LogUniform(0.01f, 0.25f);
        for (var i = 0; i < skyline.Length; i++)
        {
            skyline[i] *= rise;
        }

        var turn = random.Chance(0.7f) ? 0.25f * random.Gaussian() : random.Angle();
        var horizonAt = centerV + random.Uniform(-1.3f, 1.3f) * reach;
        return new Surroundings(
            zenith, sky, Tone(random, 0.2f, 0.6f), ground, turn, horizonAt, random.LogUniform(0.003f, 0.3f), skyline, shapes);
    }

    private static Rgb Sky(PanelRandom random, LightKind kind, out Rgb zenith)
    {
        switch (kind)
        {
            case LightKind.Overcast:
                zenith = Rgb.Gray(random.Uniform(0.7f, 1.4f));
                return zenith * random.Uniform(0.6f, 1f);
            case LightKind.Sun:
                zenith = new Rgb(0.25f, 0.45f, 0.85f) * random.Uniform(0.4f, 0.9f);
                return new Rgb(0.75f, 0.88f, 1f) * random.Uniform(0.6f, 1.1f);
            case LightKind.Dusk:
                zenith = new Rgb(0.5f, 0.5f, 0.65f) * random.Uniform(0.5f, 1f);
                return new Rgb(1.3f, 0.9f, 0.55f) * random.Uniform(0.6f, 1.3f);
            default:
                zenith = Tone(random, 0.3f, 0.7f);
                return Tone(random, 0.35f, 0.6f);
        }
    }

    private static Rgb Tone(PanelRandom random, float level, float spread)
    {
        var gray = level * MathF.Exp(spread * random.Gaussian());
        return new Rgb(
            gray * (1f + (0.12f * random.Gaussian())), gray, gray * (1f + (0.15f * random.Gaussian()))).Clamp(0.01f, 1.3f);
    }

    // Buildings, trees, cars, the photographer: what breaks up the mirror image without being light.
    private static void AddBodies(PanelRandom random, List<LightShape> shapes, float u, float v, float reach)
    {
        var count = random.Whole(0, 6);
        for (var i = 0; i < count; i++)
        {
            shapes.Add(new LightShape(
                u + (reach * 0.9f * random.Gaussian()),
                v + (reach * 0.9f * random.Gaussian()),
                reach * random.LogUniform(0.06f, 0.7f),
                reach * random.LogUniform(0.06f, 0.7f),
                random.Chance(0.7f) ? 0f : random.Angle(),
                random.LogUniform(0.002f, 0.1f),
                random.Chance(0.35f),
                Tone(random, 0.22f, 0.9f)));
        }
    }

    private static void AddStrips(PanelRandom random, List<LightShape> shapes, float u, float v, float reach)
    {
        var count = random.Whole(1, 6);
        var angle = random.Angle();
        var pitch = reach * random.Uniform(0.3f, 0.8f);
        var radiance = new Rgb(1f, 1.02f, 1f) * random.LogUniform(3f, 14f);
        var half = reach * random.LogUniform(0.015f, 0.08f);
        for (var i = 0; i < count; i++)
        {
            var offset = (i - ((count - 1) * 0.5f)) * pitch;
            shapes.Add(new LightShape(
                u - (offset * MathF.Sin(angle)) + (0.1f * reach * random.Gaussian()),
                v + (offset * MathF.Cos(angle)) + (0.1f * reach * random.Gaussian()),
                reach * random.Uniform(0.4f, 1.6f), half, angle, half * 0.3f, false, radiance));
        }
    }

    private static void AddWindow(PanelRandom random, List<LightShape> shapes, float u, float v, float reach)
    {
        var half = reach * random.Uniform(0.25f, 0.6f);
        var angle = 0.2f * random.Gaussian();
        var atU = u + (reach * 0.5f * random.Gaussian());
        var atV = v + (reach * 0.5f * random.Gaussian());
        var light = new Rgb(0.95f, 1f, 1.08f) * random.LogUniform(2f, 7f);
        var frame = Rgb.Gray(random.Uniform(0.05f, 0.4f));
        shapes.Add(new LightShape(atU, atV, half, half * 1.3f, angle, 0.004f, false, light));
        shapes.Add(new LightShape(atU, atV, half * 0.05f, half * 1.3f, angle, 0.004f, false, frame));
        shapes.Add(new LightShape(atU, atV, half, half * 0.05f, angle, 0.004f, false, frame));
    }

    private static void AddSoftboxes(PanelRandom random, List<LightShape> shapes, float u, float v, float reach)
    {
        var count = random.Whole(1, 3);
        for (var i = 0; i < count; i++)
        {
            shapes.Add(new LightShape(
                u + (reach * 0.6f * random.Gaussian()), v + (reach * 0.6f * random.Gaussian()),
                reach * random.Uniform(0.2f, 0.7f), reach * random.Uniform(0.2f, 0.7f), random.Angle(),
                reach * random.Uniform(0.03f, 0.3f), false, Rgb.Gray(random.LogUniform(2f, 8f))));
        }
    }

    private static void AddDisc(
        PanelRandom random, List<LightShape> shapes, float u, float v, float reach, float radiance, Rgb tint)
    {
        var half = random.LogUniform(0.01f, 0.05f);
        shapes.Add(new LightShape(
            u + (reach * 0.8f * random.Gaussian()), v + (reach * 0.8f * random.Gaussian()), half, half, 0f, half * 0.5f, true,
            tint * radiance));
    }
}
