namespace CoatScan.Metrics.Ratings;

/// <summary>Size class of separate defects by ISO 4628-1, 2 to 5.</summary>
/// <remarks>
/// Up to 0.2 mm: 2; up to 0.5 mm: 3; up to 5 mm: 4; above: 5. Class 1, only visible at tenfold magnification, is nothing that a photo can tell from 2.
/// From memory of the standard, not read again. Cracks have their own: see <see cref="CrackSize"/>.
/// </remarks>
public static class Iso4628Size
{
    /// <summary>Class of a typical large defect in millimeters, above 0.</summary>
    public static int Class(double mm) => mm <= 0.2 ? 2 : mm <= 0.5 ? 3 : mm <= 5.0 ? 4 : 5;

    /// <summary>Class of a crack's width in millimeters by ISO 4628-4: 5 above 1 mm, 4 up to it.</summary>
    /// <remarks>Classes 1 to 3 are told by the eye, without numbers; 4 therefore means 4 or less. From memory, not read again.</remarks>
    public static int CrackSize(double mm) => mm > 1.0 ? 5 : 4;
}
