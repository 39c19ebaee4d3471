namespace CoatScan.Imaging.Cards;

/// <summary>A place that may be the middle of a finder pattern.</summary>
/// <param name="X">Column, pixels.</param>
/// <param name="Y">Row, pixels.</param>
/// <param name="Module">Side of a module, pixels.</param>
/// <param name="Crossings">Rows that cross it.</param>
internal readonly record struct PatternCenter(double X, double Y, double Module, int Crossings)
{
    /// <summary>Distance to another, pixels.</summary>
    public double DistanceTo(PatternCenter other) => Math.Sqrt(((X - other.X) * (X - other.X)) + ((Y - other.Y) * (Y - other.Y)));
}
