using CoatScan.Findings;

namespace CoatScan.Reports;

/// <summary>A finding with everything that it says in the language of its reader.</summary>
internal static class FindingWords
{
    /// <summary>The finding in a language; what a caller wrote, ids and numbers stay as they are. A finding that is in the language already stays so.</summary>
    public static Finding In(Finding finding, TradeWords words) => finding with
    {
        VerdictReasons = Each(finding.VerdictReasons, words),
        Photos = [.. finding.Photos.Select(photo => photo with { Issues = [.. photo.Issues.Select(issue => issue with
        {
            Detail = words.Say(issue.Detail), HowToFix = words.Say(issue.HowToFix), Limits = words.Say(issue.Limits),
        })] })],
        Measurements = [.. finding.Measurements.Select(one => one.AbsentReason is { } reason
            ? Measurement.Absent(one.Metric, one.Unit, words.Say(reason)) with { PhotoIndex = one.PhotoIndex }
            : one)],
        Ratings = [.. finding.Ratings.Select(one => one with { Designation = words.Say(one.Designation), Basis = words.Say(one.Basis) })],
        Evidence = [.. finding.Evidence.Select(one => one with { Text = words.Say(one.Text), SaidBy = Each(one.SaidBy, words) })],
        Conditions = [.. finding.Conditions.Select(one => one with
        {
            DisplayName = words.Say(one.DisplayName), Evidence = Reasons(one.Evidence, words),
        })],
        Causes = [.. finding.Causes.Select(one => one with
        {
            Text = words.Say(one.Text), Mechanism = words.Say(one.Mechanism), Evidence = Reasons(one.Evidence, words),
        })],
        Parties = [.. finding.Parties.Select(one => one with
        {
            Text = words.Say(one.Text), For = Each(one.For, words), Against = Each(one.Against, words),
        })],
        LookAlikes = [.. finding.LookAlikes.Select(one => one with { Tell = words.Say(one.Tell) })],
        NextTests = [.. finding.NextTests.Select(one => one with
        {
            Reason = words.Say(one.Reason),
            DisplayName = words.Say(one.DisplayName),
            How = words.Say(one.How),
            Caution = words.Say(one.Caution),
            Consent = words.Say(one.Consent),
        })],
        Contradictions = [.. finding.Contradictions.Select(one => one with { Text = words.Say(one.Text), Consequence = words.Say(one.Consequence) })],
        Remedy = new(
            [.. finding.Remedy.Steps.Select(one => one with
            {
                Action = words.Say(one.Action),
                StopIf = words.Say(one.StopIf),
                Wait = one.Wait is { } wait ? words.Say(wait) : null,
                HoursFor = words.Say(one.HoursFor),
                Materials = words.Say(one.Materials),
            })],
            [.. finding.Remedy.MustNot.Select(one => one with { Why = words.Say(one.Why) })]),
        Timing = new(finding.Timing.Class, Each(finding.Timing.Fits, words), Each(finding.Timing.DoesNotFit, words)),
        Claim = finding.Claim with
        {
            DatesText = words.Say(finding.Claim.DatesText),
            Questions = Each(finding.Claim.Questions, words),
            SignsOfAge = words.Say(finding.Claim.SignsOfAge),
        },
        FilmMap = [.. finding.FilmMap.Select(one => one with { Text = words.Say(one.Text) })],
        FilmBudget = finding.FilmBudget is { } budget ? budget with { Text = words.Say(budget.Text) } : null,
        HandOvers = [.. finding.HandOvers.Select(one => one with { Why = words.Say(one.Why), To = words.Say(one.To) })],
        Cautions = Each(finding.Cautions, words),
        CustomerText = words.Say(finding.CustomerText),
        CareAdvice = Each(finding.CareAdvice, words),
    };

    /// <summary>The subject with its finding in a language.</summary>
    public static FindingSubject In(FindingSubject subject, TradeWords words) => subject with { Finding = In(subject.Finding, words) };

    private static IReadOnlyList<string> Each(IReadOnlyList<string> texts, TradeWords words) => [.. texts.Select(words.Say)];

    private static IReadOnlyList<EvidenceWeight> Reasons(IReadOnlyList<EvidenceWeight> weights, TradeWords words) =>
        [.. weights.Select(one => one with { Reason = words.Say(one.Reason) })];
}
