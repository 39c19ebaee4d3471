using CoatScan.Diagnosis;
using CoatScan.Findings;

namespace CoatScan.Batches;

/// <summary>What a list of vehicles shows of one panel.</summary>
public sealed record PanelSummary
{
    /// <summary>How far the finding is decided.</summary>
    public required Verdict Verdict { get; init; }

    /// <summary>Id of the leading condition; null without one.</summary>
    public string? Condition { get; init; }

    /// <summary>Trade name of the leading condition; empty without one.</summary>
    public string ConditionName { get; init; } = "";

    /// <summary>Share of the leading condition, [0, 1]; 0 without one.</summary>
    public double Probability { get; init; }

    /// <summary>Largest rating by ISO 4628 as the standard writes it; empty without one.</summary>
    public string Rating { get; init; } = "";

    /// <summary>The least invasive remedy that the finding names.</summary>
    public RemedyClass LeastRemedy { get; init; }

    /// <summary>The most invasive remedy that the finding names.</summary>
    public RemedyClass MostRemedy { get; init; }

    /// <summary>Hours from the first step with known hours alone to all steps; null where none are known.</summary>
    public HourRange? Hours { get; init; }

    /// <summary>What to photograph again, one sentence each; empty if the photos do.</summary>
    public IReadOnlyList<string> Retakes { get; init; } = [];

    /// <summary>Place among other panels, larger is worse; see <see cref="Batches.Severity"/>.</summary>
    public required long Severity { get; init; }

    /// <summary>The summary of a finding.</summary>
    /// <param name="finding">The finding.</param>
    /// <param name="knowledge">Says how invasive its operations are.</param>
    public static PanelSummary Of(Finding finding, KnowledgeBase knowledge)
    {
        ArgumentNullException.ThrowIfNull(finding);
        ArgumentNullException.ThrowIfNull(knowledge);
        var lead = finding.Verdict != Verdict.NotAssessable && finding.Conditions is [var first, ..] ? first : null;
        var remedies = finding.Remedy.Steps
            .Select(step => RemedyClasses.Of(knowledge.Operations[step.Operation].Invasiveness))
            .DefaultIfEmpty(RemedyClass.None)
            .ToList();
        return new PanelSummary
        {
            Verdict = finding.Verdict,
            Condition = lead?.Condition,
            ConditionName = lead?.DisplayName ?? "",
            Probability = lead?.Probability ?? 0,
            Rating = Batches.Severity.WorstRating(finding)?.Designation ?? "",
            LeastRemedy = remedies.Min(),
            MostRemedy = remedies.Max(),
            Hours = HoursOf(finding),
            Retakes = RetakesOf(finding),
            Severity = Batches.Severity.Of(finding),
        };
    }

    private static HourRange? HoursOf(Finding finding)
    {
        var known = finding.Remedy.Steps.Select(step => step.Hours).OfType<HourRange>().ToList();
        return known.Count == 0 ? null : new(known[0].Low, known.Sum(hours => hours.High));
    }

    // A scale that is missing or doubtful alone is no reason to walk back to the car.
    private static List<string> RetakesOf(Finding finding)
    {
        var wanted = finding.Photos
            .SelectMany(photo => photo.Issues)
            .Where(issue => issue.Code is not (PhotoIssueCode.NoScale or PhotoIssueCode.ScaleConflict or PhotoIssueCode.Oblique))
            .Select(issue => issue.HowToFix);
        if (finding.Verdict == Verdict.NotAssessable)
        {
            wanted = finding.NextTests.Select(test => test.How).Concat(wanted);
        }

        return [.. wanted.Where(text => text.Length > 0).Distinct()];
    }
}
