namespace CoatScan.Metrics;

/// <summary>One spot that stands out from the paint around it.</summary>
/// <param name="StartXPx">First column of its bounding box, pixels of the planes.</param>
/// <param name="StartYPx">First row of its bounding box, pixels.</param>
/// <param name="EndXPx">Column behind the box.</param>
/// <param name="EndYPx">Row behind the box.</param>
/// <param name="CenterXPx">Column of its center of mass.</param>
/// <param name="CenterYPx">Row of its center of mass.</param>
/// <param name="AreaPx">Area at half of its contrast, square pixels, at least 1; of a ring with what it encloses.</param>
/// <param name="ContrastLightness">Difference to the paint around it, CIE L*; negative is darker. Of a ring that of its rim.</param>
/// <param name="IsRing">Whether it is a closed rim around paint.</param>
public sealed record Mark(
    int StartXPx,
    int StartYPx,
    int EndXPx,
    int EndYPx,
    double CenterXPx,
    double CenterYPx,
    int AreaPx,
    double ContrastLightness,
    bool IsRing)
{
    /// <summary>Diameter of the disk of equal area, pixels.</summary>
    public double DiameterPx => Math.Sqrt(4.0 * AreaPx / Math.PI);
}
