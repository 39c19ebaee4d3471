namespace CoatScan.Metrics.Ratings;

/// <summary>Degree of rusting Ri 0 to Ri 5 (worst) of ISO 4628-3, from the rusted share of an area.</summary>
/// <remarks>
/// Nominal areas of the pictures: 0.05, 0.5, 1, 8 and 40 to 50 % (45 is taken). Source: annex table of ISO 4628-3, read in a reproduction. They are not
/// limits: see <see cref="NearestNominal"/>. Never converted from or into a grade of ASTM D610.
/// </remarks>
public static class Iso4628Rust
{
    private static readonly double[] NominalPercent = [0.05, 0.5, 1.0, 8.0, 45.0];

    /// <summary>Degree of a rusted area in percent, [0, 100].</summary>
    public static int Degree(double percent) => NearestNominal.Class(percent, NominalPercent);
}
