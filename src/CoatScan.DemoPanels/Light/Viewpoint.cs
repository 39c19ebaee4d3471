namespace CoatScan.DemoPanels.Light;

/// <summary>From where the panel is seen and how far its mirror image lies behind it.</summary>
/// <param name="CameraDistanceMm">Camera to panel, mm.</param>
/// <param name="SurroundingsDistanceMm">Panel to the mirrored objects, mm.</param>
/// <param name="TiltX">Tangent of the camera's angle off the panel's normal, x.</param>
/// <param name="TiltY">The same, y.</param>
internal sealed record Viewpoint(float CameraDistanceMm, float SurroundingsDistanceMm, float TiltX, float TiltY)
{
    /// <summary>How much the mirrored direction changes per mm along a flat panel, radians per mm.</summary>
    public float MirrorTurnPerMm => (1f / CameraDistanceMm) + (1f / SurroundingsDistanceMm);
}
