using CoatScan.Training.Reporting;

namespace CoatScan.Training.Evaluation;

/// <summary>What a reader should know about the figures of one class, worked out from the confusion.</summary>
internal static class ClassNote
{
    // Below this the interval of a recall spans more than half of its range.
    private const int Few = 10;

    // Worth saying when at least this share of the class goes there.
    private const double WorthSaying = 0.1;

    public static string Of(ConfusionMatrix confusion, int index, IReadOnlyList<string> names)
    {
        var photos = confusion.RowSum(index);
        var called = confusion.ColumnSum(index);
        var notes = new List<string>();
        if (photos == 0)
        {
            return ReportText.Invariant($"No photo shows it; called {called} times all the same.");
        }

        if (photos < Few)
        {
            notes.Add(ReportText.Invariant($"Only {photos} photos: the figures say little."));
        }

        if (called == 0)
        {
            notes.Add("Never called.");
        }

        var others = Enumerable.Range(0, confusion.Classes).Where(other => other != index).ToArray();
        var taken = others.MaxBy(other => confusion[index, other]);
        if (confusion[index, taken] >= Math.Max(2, WorthSaying * photos))
        {
            notes.Add(ReportText.Invariant($"Taken for {names[taken]} {confusion[index, taken]} times of {photos}."));
        }

        var wrong = others.MaxBy(other => confusion[other, index]);
        if (confusion[wrong, index] >= Math.Max(2, WorthSaying * called))
        {
            notes.Add(ReportText.Invariant($"Of {called} called so, {confusion[wrong, index]} are {names[wrong]}."));
        }

        return string.Join(" ", notes);
    }
}
