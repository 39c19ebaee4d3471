using CoatScan.Findings;

namespace CoatScan.Reports;

/// <summary>
/// Worst first: faults before open questions, those before photos to be taken again, then photos in which nothing wrong
/// shows, sound ones last; within, the
/// larger rating of amount, then the larger area, then the larger share. No new figure is made of these.
/// </summary>
/// <param name="Group">0 is worst.</param>
/// <param name="Rating">Largest rating of amount by ISO 4628, 0 to 5; -1 without one. A size alone (S4) is no amount.</param>
/// <param name="Area">Largest fraction of the photo that shows a fault, [0, 1].</param>
/// <param name="Share">Share of the leading condition, [0, 1].</param>
public sealed record OverviewOrder(int Group, int Rating, double Area, double Share) : IComparable<OverviewOrder>
{
    // The condition and the visual class of a finish without a fault have one id.
    private const string SoundClass = "sound";

    /// <summary>A photo without a finding.</summary>
    public static OverviewOrder Failed { get; } = new(3, -1, 0, 0);

    /// <summary>The order of a finding.</summary>
    public static OverviewOrder Of(Finding finding)
    {
        ArgumentNullException.ThrowIfNull(finding);
        var group = finding.Verdict switch
        {
            Verdict.Provisional when finding.Conditions is [{ Condition: SoundClass }, ..] => 4,
            Verdict.Conclusive or Verdict.Provisional => 0,
            Verdict.Inconclusive => 1,
            Verdict.Sound => 5,
            _ => 2,
        };
        var rating = finding.Ratings
            .Where(one => one.Standard.StartsWith("ISO 4628", StringComparison.Ordinal) && !one.Designation.StartsWith('S'))
            .Select(one => one.Designation.FirstOrDefault(char.IsAsciiDigit))
            .Select(digit => digit is >= '0' and <= '5' ? digit - '0' : -1)
            .DefaultIfEmpty(-1)
            .Max();
        var area = finding.VisualClasses
            .Where(one => one.VisualClass != SoundClass)
            .Select(one => one.AreaFraction)
            .DefaultIfEmpty(0)
            .Max();
        return new(group, rating, area, finding.Conditions is [var lead, ..] ? lead.Probability : 0);
    }

    /// <inheritdoc/>
    public int CompareTo(OverviewOrder? other)
    {
        if (other is null)
        {
            return 1;
        }

        var order = Group.CompareTo(other.Group);
        order = order != 0 ? order : other.Rating.CompareTo(Rating);
        order = order != 0 ? order : other.Area.CompareTo(Area);
        return order != 0 ? order : other.Share.CompareTo(Share);
    }

    /// <summary>Whether the first is worse.</summary>
    public static bool operator <(OverviewOrder first, OverviewOrder second) => Compare(first, second) < 0;

    /// <summary>Whether the first is less bad.</summary>
    public static bool operator >(OverviewOrder first, OverviewOrder second) => Compare(first, second) > 0;

    /// <summary>Whether the first is at least as bad.</summary>
    public static bool operator <=(OverviewOrder first, OverviewOrder second) => Compare(first, second) <= 0;

    /// <summary>Whether the first is at most as bad.</summary>
    public static bool operator >=(OverviewOrder first, OverviewOrder second) => Compare(first, second) >= 0;

    private static int Compare(OverviewOrder first, OverviewOrder second) => Comparer<OverviewOrder>.Default.Compare(first, second);
}
