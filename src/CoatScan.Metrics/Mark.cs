namespace CoatScan.Metrics;

/// <summary>One spot that stands out from the paint around it.</summary>
/// <param name="StartXPx">First column of its bounding box, pixels of the planes.</param>
/// <param name="StartYPx">First row of its bounding box, pixels.</param>
/// <param name="EndXPx">Column behind the box.</param>
/// <param name="EndYPx">Row behind the box.</param>
/// <param name="AreaPx">Area at half of its contrast, square pixels, at least 1.</param>
/// <param name="ContrastLightness">Difference to the paint around it, CIE L*; negative is darker.</param>
public sealed record Mark(
    int StartXPx,
    int StartYPx,
    int EndXPx,
    int EndYPx,
    int AreaPx,
    double ContrastLightness)
{
    /// <summary>Diameter of the disk of equal area, pixels.</summary>
    public double DiameterPx => Math.Sqrt(4.0 * AreaPx / Math.PI);
}
