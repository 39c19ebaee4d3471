using CoatScan.Classification;
using CoatScan.Diagnosis;
using CoatScan.Findings;
using CoatScan.Metrics.Ratings;

namespace CoatScan.Inspection;

/// <summary>What the standards may rate on a panel, by what the photos show and what the ranking holds likely.</summary>
/// <remarks>
/// A subject is there if a visual class that shows it, or the conditions whose own rating names its standard together, have at least this
/// share. A quarter is our own limit: two look-alikes of equal share are both rated.
/// </remarks>
internal static class RatedSubjects
{
    private const double LeastShare = 0.25;

    private static readonly (RatingSubject Subject, string Standard, string[] Classes)[] Rows =
    [
        (RatingSubject.Rust, "4628-3", [VisualClasses.Rust]),
        (RatingSubject.FilmLoss, "4628-5", [VisualClasses.FilmLoss, VisualClasses.Chips]),
        (RatingSubject.Blisters, "4628-2", [VisualClasses.Domes]),
        (RatingSubject.Cracks, "4628-4", [VisualClasses.CrackNetwork, VisualClasses.RandomCracks]),
        (
            RatingSubject.Spots,
            "4628-1 quantity/size",
            [
                VisualClasses.Stains, VisualClasses.Deposits, VisualClasses.Rings, VisualClasses.Craters, VisualClasses.Pits,
                VisualClasses.Nibs,
            ]),
    ];

    /// <summary>The subjects of a panel.</summary>
    /// <param name="shares">What the photos show.</param>
    /// <param name="conditions">What the ranking says.</param>
    /// <param name="knowledge">Which standard rates a condition.</param>
    public static IReadOnlySet<RatingSubject> Of(
        IReadOnlyList<VisualClassShare> shares, IReadOnlyList<ConditionShare> conditions, KnowledgeBase knowledge)
    {
        var standards = knowledge.Conditions.ToDictionary(one => one.Id, one => one.Rating, StringComparer.Ordinal);
        var subjects = new HashSet<RatingSubject>();
        foreach (var (subject, standard, classes) in Rows)
        {
            var seen = shares.Where(one => classes.Contains(one.VisualClass)).Sum(one => one.Probability);
            var ranked = conditions
                .Where(one => Names(standards.GetValueOrDefault(one.Condition, ""), standard))
                .Sum(one => one.Probability);
            if (Math.Max(seen, ranked) >= LeastShare)
            {
                subjects.Add(subject);
            }
        }

        return subjects;
    }

    // First of all, or among several; what holds only if something else does is written with the full name and does not count.
    private static bool Names(string rating, string standard) =>
        rating.StartsWith($"ISO {standard}", StringComparison.Ordinal)
        || rating.Contains($"; {standard}", StringComparison.Ordinal);
}
