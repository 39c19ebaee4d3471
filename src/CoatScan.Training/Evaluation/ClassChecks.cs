using CoatScan.Classification;
using CoatScan.Findings;

namespace CoatScan.Training.Evaluation;

/// <summary>What the evaluation says about each class, for the finding to carry.</summary>
internal static class ClassChecks
{
    // With fewer photos a recall says next to nothing: its interval spans more than half of what there is.
    private const int LeastRealPhotos = 10;

    /// <param name="rendered">Held-out renders, ordinary camera.</param>
    /// <param name="real">Real photos; null for none.</param>
    /// <param name="labels">Which classes answer to the real photos' labels.</param>
    public static IEnumerable<ClassCheck> Of(SetReport rendered, SetReport? real, LabelMap labels)
    {
        for (var index = 0; index < VisualClasses.All.Count; index++)
        {
            var column = labels.ColumnOf(index);
            var photos = real is null ? 0 : real.Confusion[column].Sum();
            if (photos >= LeastRealPhotos)
            {
                var together = labels.Together(index);
                yield return new ClassCheck
                {
                    Basis = ClassCheckBasis.RealPhotos,
                    Photos = photos,
                    Recall = Recall(real!, column),
                    Together = together.Count > 1 ? [.. together.Select(other => VisualClasses.All[other])] : [],
                };
            }
            else
            {
                yield return new ClassCheck
                {
                    Basis = ClassCheckBasis.RenderedOnly,
                    Photos = rendered.Confusion[index].Sum(),
                    Recall = Recall(rendered, index),
                };
            }
        }
    }

    private static double? Recall(SetReport set, int index) => set.Confusion[index].Sum() is var photos and > 0
        ? Math.Round(set.Confusion[index][index] / (double)photos, 3)
        : null;
}
