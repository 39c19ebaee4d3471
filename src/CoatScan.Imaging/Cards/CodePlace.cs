using CoatScan.Imaging.Color;
using CoatScan.Metrics;

namespace CoatScan.Imaging.Cards;

/// <summary>Where a code lies in a photo, and how well that is known.</summary>
/// <param name="FromModules">From modules, (0, 0) at the code's upper left corner, to pixels.</param>
/// <param name="ToUnit">From pixels about the center, over <paramref name="SizePx"/>, to half sides of the code about its middle.</param>
/// <param name="Covariance">Of the eight elements of <paramref name="ToUnit"/>.</param>
/// <param name="Center">The middle of the code, pixels.</param>
/// <param name="SizePx">Half a side of the code, about, pixels.</param>
/// <param name="HalfModules">Half a side of the code, modules.</param>
internal sealed record CodePlace(
    Matrix3 FromModules, Matrix3 ToUnit, double[,] Covariance, (double X, double Y) Center, double SizePx, double HalfModules)
{
    /// <summary>The scale of the plane in which the code lies.</summary>
    /// <param name="mmPerModule">Millimeters of a module.</param>
    /// <param name="tolerance">Its relative uncertainty, 95 % half width.</param>
    public PlaneScale ScaleOf(double mmPerModule, double tolerance) => new(
        [ToUnit.M11, ToUnit.M12, ToUnit.M13, ToUnit.M21, ToUnit.M22, ToUnit.M23, ToUnit.M31, ToUnit.M32],
        Covariance,
        Center,
        SizePx,
        HalfModules * mmPerModule,
        tolerance);
}
