using CoatScan.DemoPanels.Camera;
using CoatScan.DemoPanels.Light;
using CoatScan.DemoPanels.Surface;

namespace CoatScan.DemoPanels.Scenes;

/// <summary>Draws those settings of a scene that have nothing to do with the fault: finish, light, camera, things in the way.</summary>
internal abstract class SceneLook
{
    public static SceneLook Of(PanelLook look) => look == PanelLook.Shifted ? new ShiftedLook() : new UsualLook();

    /// <summary>The finish; working vehicles and machines have others than cars.</summary>
    public abstract Paint.Paint DrawPaint(PanelRandom random, bool isWorking);

    public abstract CameraModel DrawCamera(PanelRandom random, float sizeFactor);

    public abstract LightKind DrawLight(PanelRandom random);

    /// <summary>What the panel mirrors; see <see cref="SurroundingsPalette.Draw"/>.</summary>
    public abstract Surroundings DrawSurroundings(PanelRandom random, LightKind kind, float centerU, float centerV, float spanU);

    public abstract Illumination DrawIllumination(PanelRandom random, LightKind kind);

    /// <summary>What lies over the panel besides the usual hardware.</summary>
    public abstract void LayMore(PanelContext context);
}
