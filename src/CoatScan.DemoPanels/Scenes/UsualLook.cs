using CoatScan.DemoPanels.Camera;
using CoatScan.DemoPanels.Light;
using CoatScan.DemoPanels.Paint;
using CoatScan.DemoPanels.Surface;

namespace CoatScan.DemoPanels.Scenes;

/// <summary>What panels for training are drawn with.</summary>
internal sealed class UsualLook : SceneLook
{
    public override Paint.Paint DrawPaint(PanelRandom random, bool isWorking) =>
        isWorking ? PaintPalette.DrawWorking(random) : PaintPalette.Draw(random);

    public override CameraModel DrawCamera(PanelRandom random, float sizeFactor) => CameraModel.Draw(random, sizeFactor);

    public override LightKind DrawLight(PanelRandom random) => SurroundingsPalette.DrawKind(random);

    public override Surroundings DrawSurroundings(PanelRandom random, LightKind kind, float centerU, float centerV, float spanU) =>
        SurroundingsPalette.Draw(random, kind, centerU, centerV, spanU);

    public override Illumination DrawIllumination(PanelRandom random, LightKind kind) => Illumination.Draw(random, kind);

    public override void LayMore(PanelContext context)
    {
        // The usual hardware is all there is.
    }
}
