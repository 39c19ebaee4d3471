using CoatScan.Findings;

namespace CoatScan.Reports;

/// <summary>What every one of several findings says: it is said once for all of them.</summary>
/// <param name="Cautions">What is dangerous.</param>
/// <param name="HandOvers">What belongs in other hands.</param>
/// <param name="MustNot">What must not be done.</param>
/// <param name="Issues">What limits photos of each.</param>
/// <param name="Absent">Why something was not measured, and what.</param>
internal sealed record Common(
    IReadOnlyList<string> Cautions,
    IReadOnlyList<HandOver> HandOvers,
    IReadOnlyList<MustNot> MustNot,
    IReadOnlyList<PhotoIssue> Issues,
    IReadOnlyList<(string Reason, IReadOnlyList<string> Metrics)> Absent)
{
    /// <summary>Nothing in common.</summary>
    public static Common None { get; } = new([], [], [], [], []);

    /// <summary>What findings have in common.</summary>
    public static Common Of(IReadOnlyList<FindingSubject> subjects)
    {
        List<Finding> findings = [.. subjects.Select(one => one.Finding)];
        List<Finding> measured = [.. findings.Where(one => one.Measurements.Count > 0)];
        return new(
            InAll(findings, one => one.Cautions),
            InAll(findings, one => one.HandOvers),
            InAll(findings, one => one.Remedy.MustNot),
            InAll(findings, one => one.Photos.SelectMany(photo => photo.Issues).ToList()),
            measured.Count < findings.Count ? [] :
            [
                .. InAll(findings, Reasons).Select(reason => (reason, (IReadOnlyList<string>)[.. findings
                    .SelectMany(one => one.Measurements.Where(metric => metric.AbsentReason == reason).Select(metric => metric.Metric)).Distinct()])),
            ]);
    }

    /// <summary>A finding without what is said for all.</summary>
    public Finding TakenFrom(Finding finding) => finding with
    {
        Cautions = [.. finding.Cautions.Except(Cautions)],
        HandOvers = [.. finding.HandOvers.Except(HandOvers)],
        Remedy = finding.Remedy with { MustNot = [.. finding.Remedy.MustNot.Except(MustNot)] },
        Photos = [.. finding.Photos.Select(photo => photo with { Issues = [.. photo.Issues.Except(Issues)] })],
        Measurements = [.. finding.Measurements.Where(one => one.AbsentReason is null || Absent.All(absent => absent.Reason != one.AbsentReason))],
    };

    private static IReadOnlyList<string> Reasons(Finding finding) =>
        [.. finding.Measurements.Where(one => one.AbsentReason is not null).Select(one => one.AbsentReason!).Distinct()];

    private static List<T> InAll<T>(List<Finding> findings, Func<Finding, IReadOnlyList<T>> each) =>
        [.. each(findings[0]).Distinct().Where(one => findings.All(finding => each(finding).Contains(one)))];
}
