using CoatScan.DemoPanels.Paint;
using CoatScan.DemoPanels.Surface;

namespace CoatScan.DemoPanels.Light;

/// <summary>Lights that no panel for training is drawn under.</summary>
internal static class ShiftedLight
{
    /// <inheritdoc cref="SurroundingsPalette.Draw"/>
    public static Surroundings DrawSurroundings(PanelRandom random, LightKind kind, float centerU, float centerV, float spanU)
    {
        var shapes = new List<LightShape>();
        var reach = MathF.Max(0.35f, spanU * 1.4f);
        switch (kind)
        {
            case LightKind.CrossedTubes:
                AddTubes(random, shapes, centerU, centerV, reach, new Rgb(0.8f, 1.15f, 0.85f) * random.Uniform(3f, 9f));
                AddTubes(random, shapes, centerU, centerV, reach, new Rgb(1.2f, 0.8f, 1.15f) * random.Uniform(3f, 9f));
                break;
            case LightKind.LeafGaps:
                AddGaps(random, shapes, centerU, centerV, reach);
                break;
            case LightKind.LampRing:
                AddRing(random, shapes, centerU, centerV, reach);
                break;
            default:
                var half = random.Uniform(0.06f, 0.15f);
                shapes.Add(new LightShape(
                    centerU + (reach * random.Uniform(-1.2f, 1.2f)), centerV + (reach * random.Uniform(-1.2f, 1.2f)), half,
                    half * random.Uniform(0.3f, 0.6f), random.Angle(), half * 0.2f, true, Tint(kind) * random.LogUniform(8f, 60f)));
                break;
        }

        // A room or a night: the same tone above and below, darker than any usual sky.
        var tone = Tint(kind) * (kind == LightKind.LeafGaps ? random.Uniform(0.1f, 0.2f) : random.LogUniform(0.02f, 0.12f));
        var skyline = Noise.Line(random, 256, random.LogUniform(3f, 5f), 2);
        for (var i = 0; i < skyline.Length; i++)
        {
            skyline[i] *= 0.4f;
        }

        return new Surroundings(
            tone, tone * random.Uniform(1.2f, 2.5f), tone * random.Uniform(0.5f, 0.9f), tone * 0.4f, random.Angle(),
            centerV + (random.Uniform(-0.8f, 0.8f) * reach), random.Uniform(0.4f, 0.8f), skyline, shapes);
    }

    public static Illumination DrawIllumination(PanelRandom random, LightKind kind)
    {
        var heading = random.Angle();

        // Usual lights stand higher than 0.3 rad; usual ambient shares lie in 0.25 to 0.95.
        var elevation = kind == LightKind.LampRing ? random.Uniform(1.3f, 1.5f) : random.Uniform(0.12f, 0.28f);
        var ambient = random.Uniform(0.06f, 0.2f);
        var tilt = random.Uniform(0.6f, 0.9f);
        return new Illumination(
            ambient,
            tilt * MathF.Cos(heading),
            tilt * MathF.Sin(heading),
            MathF.Cos(heading) * MathF.Cos(elevation),
            MathF.Sin(heading) * MathF.Cos(elevation),
            MathF.Sin(elevation),
            Tint(kind));
    }

    private static Rgb Tint(LightKind kind) => kind switch
    {
        LightKind.StreetLamp => new Rgb(1.5f, 0.9f, 0.4f),
        LightKind.CrossedTubes => new Rgb(0.95f, 1.1f, 0.95f),
        LightKind.LeafGaps => new Rgb(0.9f, 1.12f, 0.8f),
        LightKind.LampRing => new Rgb(0.85f, 0.98f, 1.25f),
        _ => new Rgb(1.08f, 1f, 0.9f),
    };

    private static void AddTubes(PanelRandom random, List<LightShape> shapes, float u, float v, float reach, Rgb radiance)
    {
        var angle = random.Angle();
        var pitch = reach * random.Uniform(0.5f, 0.9f);
        for (var i = -1; i <= 1; i++)
        {
            shapes.Add(new LightShape(
                u - (i * pitch * MathF.Sin(angle)), v + (i * pitch * MathF.Cos(angle)), reach * 1.8f, reach * random.Uniform(0.005f, 0.012f),
                angle, reach * 0.003f, false, radiance));
        }
    }

    private static void AddGaps(PanelRandom random, List<LightShape> shapes, float u, float v, float reach)
    {
        for (var i = random.Whole(15, 35); i > 0; i--)
        {
            var half = reach * random.LogUniform(0.02f, 0.12f);
            shapes.Add(new LightShape(
                u + (reach * random.Gaussian()), v + (reach * random.Gaussian()), half, half * random.Uniform(0.5f, 1f), random.Angle(),
                half * 0.4f, true, new Rgb(0.95f, 1f, 1.05f) * random.LogUniform(0.6f, 3f)));
        }
    }

    private static void AddRing(PanelRandom random, List<LightShape> shapes, float u, float v, float reach)
    {
        var count = random.Whole(10, 20);
        var radius = reach * random.Uniform(0.3f, 0.7f);
        var atU = u + (0.4f * reach * random.Gaussian());
        var atV = v + (0.4f * reach * random.Gaussian());
        var half = radius * random.Uniform(0.05f, 0.1f);
        for (var i = 0; i < count; i++)
        {
            var turn = i * 2f * MathF.PI / count;
            shapes.Add(new LightShape(
                atU + (radius * MathF.Cos(turn)), atV + (radius * MathF.Sin(turn)), half, half, 0f, half * 0.3f, true,
                new Rgb(0.95f, 1f, 1.1f) * 6f));
        }
    }
}
