namespace CoatScan.Training.Rendering;

/// <summary>One panel of a set.</summary>
/// <param name="Label">Position of its label in the set's classes.</param>
/// <param name="Kind">What the renderer is to draw.</param>
/// <param name="Seed">Draws the panel.</param>
internal readonly record struct RenderedItem(int Label, string Kind, int Seed);
