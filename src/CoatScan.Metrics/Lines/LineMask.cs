namespace CoatScan.Metrics.Lines;

/// <summary>Pixels of a plane that lie on lines.</summary>
/// <param name="Flags">One flag a pixel, row-major.</param>
/// <param name="Response">Scale-normalized curvature at the pixels of lines, L*; above 0 on dark ones.</param>
/// <param name="Threshold">Least magnitude of the response on a line, L*.</param>
internal sealed record LineMask(bool[] Flags, Plane Response, float Threshold);
