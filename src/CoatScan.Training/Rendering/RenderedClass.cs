using CoatScan.Classification;
using CoatScan.DemoPanels;

namespace CoatScan.Training.Rendering;

/// <summary>One label of a rendered set, and the kinds of panels that carry it, which take turns.</summary>
/// <param name="Id">The label.</param>
/// <param name="Kinds">Ids of <see cref="VisualClassIds"/>, at least one.</param>
internal sealed record RenderedClass(string Id, IReadOnlyList<string> Kinds)
{
    /// <summary>
    /// The classes of the classifier. The renderer draws more kinds than the shipped network was learned to tell apart; three of them
    /// (uneven color, color difference, repair outline) look like sound paint to it and are in no class.
    /// </summary>
    public static IReadOnlyList<RenderedClass> OfClassifier { get; } =
    [
        .. VisualClasses.All.Select(id => new RenderedClass(id, id switch
        {
            VisualClasses.RoundSpots => [VisualClassIds.Deposits, VisualClassIds.Stains],
            VisualClasses.Craters => [VisualClassIds.Craters, VisualClassIds.Pits],
            VisualClasses.Nibs => [VisualClassIds.Nibs, VisualClassIds.Grit],
            VisualClasses.CrackNetwork => [VisualClassIds.CrackNetwork, VisualClassIds.RandomCracks],
            VisualClasses.Scratches => [VisualClassIds.SingleScratch, VisualClassIds.ParallelScratches, VisualClassIds.Swirl],
            _ => [id],
        })),
    ];

    /// <summary>Every kind for itself: what the next network is to learn.</summary>
    public static IReadOnlyList<RenderedClass> OfRenderer { get; } =
        [.. VisualClassIds.All.Select(id => new RenderedClass(id, [id]))];
}
