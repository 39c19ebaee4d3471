namespace CoatScan.Metrics.Shapes;

/// <summary>Neighboring pixels of one row that belong to one component.</summary>
/// <param name="Y">Row.</param>
/// <param name="StartX">First column.</param>
/// <param name="EndX">Column behind the last.</param>
/// <param name="Component">Index of the component.</param>
public readonly record struct PixelRun(int Y, int StartX, int EndX, int Component)
{
    /// <summary>Pixels in the run.</summary>
    public int Length => EndX - StartX;
}
