using CoatScan.Findings;

namespace CoatScan.Batches;

/// <summary>
/// Worst first: faults before open questions, those before photos to be taken again, then photos in which nothing wrong
/// shows, sound ones last; within, the larger rating of amount, then the larger area, then the larger share. One number
/// that only orders: it is no score and nobody sees it.
/// </summary>
public static class Severity
{
    /// <summary>An item without a finding, to be photographed or sent again.</summary>
    public const long Failed = 2 * GroupWeight;

    private const long GroupWeight = 1_000_000_000;
    private const long RatingWeight = 100_000_000;
    private const long AreaWeight = 10_000;
    private const int FineSteps = 9_999;
    private const string SoundClass = "sound";
    private const string SoundCondition = "sound";

    /// <summary>The place of a finding, 0 or more.</summary>
    public static long Of(Finding finding)
    {
        ArgumentNullException.ThrowIfNull(finding);
        var group = finding.Verdict switch
        {
            Verdict.Provisional when finding.Conditions is [{ Condition: SoundCondition }, ..] => 1,
            Verdict.Conclusive or Verdict.Provisional => 5,
            Verdict.Inconclusive => 4,
            Verdict.Sound => 0,
            _ => 3,
        };
        var rating = WorstRating(finding) is { } worst ? Digit(worst) + 1 : 0;
        var area = finding.VisualClasses
            .Where(one => one.VisualClass != SoundClass)
            .Select(one => one.AreaFraction)
            .DefaultIfEmpty(0)
            .Max();
        var share = finding.Conditions is [var lead, ..] ? lead.Probability : 0;
        return (group * GroupWeight) + (rating * RatingWeight) + (Steps(area) * AreaWeight) + Steps(share);
    }

    /// <summary>The largest rating by ISO 4628; null without one.</summary>
    public static Rating? WorstRating(Finding finding)
    {
        ArgumentNullException.ThrowIfNull(finding);
        return finding.Ratings
            .Where(one => one.Standard.StartsWith("ISO 4628", StringComparison.Ordinal) && one.Designation.Any(char.IsAsciiDigit))
            .MaxBy(Digit);
    }

    private static int Digit(Rating rating) => Math.Min(rating.Designation.First(char.IsAsciiDigit) - '0', 5);

    private static long Steps(double fraction) => (long)(Math.Clamp(fraction, 0, 1) * FineSteps);
}
