using CoatScan.Classification;

namespace CoatScan.Training.Rendering;

/// <summary>One panel of a set.</summary>
/// <param name="Label">Position of its class in <see cref="VisualClasses.All"/>.</param>
/// <param name="Seed">Draws the panel.</param>
/// <param name="Second">Position of the class of its second fault; -1 for none.</param>
internal readonly record struct RenderedItem(int Label, int Seed, int Second = -1)
{
    /// <summary>What the renderer is to draw: it has the same ids as the classifier.</summary>
    public string Kind => VisualClasses.All[Label];

    /// <summary>The second fault that the renderer is to draw; null for none.</summary>
    public string? SecondKind => Second < 0 ? null : VisualClasses.All[Second];
}
