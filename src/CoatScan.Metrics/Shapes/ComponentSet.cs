namespace CoatScan.Metrics.Shapes;

/// <summary>The components of a mask and the runs of pixels that they consist of.</summary>
/// <param name="Components">Components in the order of their first pixel, row by row.</param>
/// <param name="Runs">Runs, row by row and left to right.</param>
public sealed record ComponentSet(IReadOnlyList<Component> Components, IReadOnlyList<PixelRun> Runs);
