using CoatScan.DemoPanels.Camera;
using CoatScan.DemoPanels.Clutter;
using CoatScan.DemoPanels.Light;
using CoatScan.DemoPanels.Paint;
using CoatScan.DemoPanels.Surface;

namespace CoatScan.DemoPanels.Scenes;

/// <summary>
/// Settings that <see cref="UsualLook"/> never draws. Every range here lies outside the range of the same name there; which ones is a choice,
/// with no source: the point is only that nothing was trained on them.
/// </summary>
internal sealed class ShiftedLook : SceneLook
{
    // Violet to rose: no usual finish has these hues.
    private const float FirstHue = 0.68f;
    private const float LastHue = 0.94f;

    public override Paint.Paint DrawPaint(PanelRandom random, bool isWorking)
    {
        var color = Rgb.Hue(random.Uniform(FirstHue, LastHue), random.Uniform(0.05f, 0.85f), random.Uniform(0.12f, 0.92f));

        // Usual flakes end at 0.12, usual roughness lies in 0.01 to 0.4, usual films have n = 1.5.
        var flakes = random.Chance(0.5f) ? random.LogUniform(0.15f, 0.3f) : 0f;
        var roughness = random.Chance(0.5f) ? random.LogUniform(0.003f, 0.009f) : random.LogUniform(0.42f, 0.65f);
        return new Paint.Paint(color.Clamp(0.006f, 0.88f), flakes, random.Uniform(0.052f, 0.065f), roughness);
    }

    public override CameraModel DrawCamera(PanelRandom random, float sizeFactor)
    {
        var warm = Sign(random) * random.Uniform(0.28f, 0.4f);
        return new CameraModel(
            Sign(random) * random.Uniform(0.23f, 0.3f),
            Sign(random) * random.Uniform(0.23f, 0.3f),
            random.Uniform(0.35f, 0.6f),
            sizeFactor * (random.Chance(0.7f) ? random.Uniform(0.1f, 0.35f) : random.Uniform(1.6f, 2.2f)),
            random.Chance(0.1f) ? sizeFactor * random.Uniform(5.5f, 8f) : 0f,
            random.Angle(),
            Sign(random) * random.Uniform(0.8f, 1.2f),
            new Rgb(1f + warm, 1f + (Sign(random) * random.Uniform(0.1f, 0.15f)), 1f - warm),
            random.LogUniform(0.022f, 0.045f),
            random.LogUniform(0.007f, 0.012f),
            random.Uniform(1f, 1.6f),
            random.Uniform(0.7f, 1f));
    }

    public override LightKind DrawLight(PanelRandom random) => random.Pick(
        LightKind.RakingLamp, LightKind.StreetLamp, LightKind.CrossedTubes, LightKind.LeafGaps, LightKind.LampRing);

    public override Surroundings DrawSurroundings(PanelRandom random, LightKind kind, float centerU, float centerV, float spanU) =>
        ShiftedLight.DrawSurroundings(random, kind, centerU, centerV, spanU);

    public override Illumination DrawIllumination(PanelRandom random, LightKind kind) => ShiftedLight.DrawIllumination(random, kind);

    public override void LayMore(PanelContext context) => ShiftedThings.Lay(context);

    private static float Sign(PanelRandom random) => random.Chance(0.5f) ? 1f : -1f;
}
