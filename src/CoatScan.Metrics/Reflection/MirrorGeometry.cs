namespace CoatScan.Metrics.Reflection;

/// <summary>Where the reflected object and the camera stood: what turns the shift of an edge into a slope of the
/// surface.</summary>
/// <param name="ObjectDistanceMm">From the panel to the reflected object, above 0.</param>
/// <param name="CameraDistanceMm">From the panel to the camera, above 0; infinite for a camera far away.</param>
public sealed record MirrorGeometry(double ObjectDistanceMm, double CameraDistanceMm)
{
    /// <summary>Relative uncertainty of a slope by distances that were measured by hand, 95 % half width. No source.</summary>
    internal const double DistanceUncertainty = 0.05;

    /// <summary>Slope of the surface that shifts the edge by 1 mm on the panel, mrad.</summary>
    /// <remarks>
    /// A slope turns the reflected ray by twice its angle: at the object that is 2 D slope, and the camera at C sees it C /
    /// (C + D) times as large in the plane of the panel. Source: law of reflection and similar triangles.
    /// </remarks>
    internal double MradPerMm =>
        1000.0 * (double.IsInfinity(CameraDistanceMm) ? 1.0 : 1.0 + (ObjectDistanceMm / CameraDistanceMm))
        / (2.0 * ObjectDistanceMm);
}
