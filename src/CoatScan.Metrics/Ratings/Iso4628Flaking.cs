namespace CoatScan.Metrics.Ratings;

/// <summary>Quantity and size of flaking, 0 to 5 (worst) each, of ISO 4628-5.</summary>
/// <remarks>
/// Nominal areas of the pictures: 0.1, 0.3, 1, 3, 15 %; largest typical flake up to 1, 3, 10, 30 mm and above. All numbers from memory of
/// the standard, not read again. Areas are not limits: see <see cref="NearestNominal"/>.
/// </remarks>
public static class Iso4628Flaking
{
    private static readonly double[] NominalPercent = [0.1, 0.3, 1.0, 3.0, 15.0];
    private static readonly double[] UpperMm = [1.0, 3.0, 10.0, 30.0];

    /// <summary>Quantity class of a flaked area in percent, [0, 100].</summary>
    public static int Quantity(double percent) => NearestNominal.Class(percent, NominalPercent);

    /// <summary>Size class, 1 to 5, of the largest typical flake in millimeters, above 0.</summary>
    public static int Size(double mm)
    {
        var size = 1;
        foreach (var upper in UpperMm)
        {
            size += mm > upper ? 1 : 0;
        }

        return size;
    }
}
