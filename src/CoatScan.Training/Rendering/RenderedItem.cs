using CoatScan.Classification;

namespace CoatScan.Training.Rendering;

/// <summary>One panel of a set.</summary>
/// <param name="Label">Position of its class in <see cref="VisualClasses.All"/>.</param>
/// <param name="Seed">Draws the panel.</param>
internal readonly record struct RenderedItem(int Label, int Seed)
{
    /// <summary>What the renderer is to draw: it has the same ids as the classifier.</summary>
    public string Kind => VisualClasses.All[Label];
}
