using System.Globalization;
using CoatScan.Findings;

namespace CoatScan.Reports;

/// <summary>Findings as CSV (RFC 4180), one row a finding, for spreadsheets; UTF-8, lines end with CR LF.</summary>
/// <remarks>
/// Columns keep their names and their order; new ones come at the end. A cell is empty where there is no value. Shares are 0 to 1 with a decimal
/// point. Lists in one cell are separated by "; ".
/// </remarks>
public static class FindingTable
{
    private static readonly (string Name, Func<OverviewEntry, Finding, string> Of)[] Columns =
    [
        ("name", (entry, _) => entry.Name),
        ("panel", (_, finding) => finding.Panel),
        ("external_ref", (_, finding) => finding.ExternalRef),
        ("finding", (_, finding) => finding.Name),
        ("create_time", (_, finding) => finding.CreateTime.UtcDateTime.ToString("yyyy-MM-dd'T'HH:mm:ss'Z'", CultureInfo.InvariantCulture)),
        ("verdict", (_, finding) => Upper(finding.Verdict.ToString())),
        ("condition", (_, finding) => At(finding.Conditions, 0)?.Condition ?? ""),
        ("condition_name", (_, finding) => At(finding.Conditions, 0)?.DisplayName ?? ""),
        ("condition_share", (_, finding) => Number(At(finding.Conditions, 0)?.Probability)),
        ("second_condition", (_, finding) => At(finding.Conditions, 1)?.Condition ?? ""),
        ("second_share", (_, finding) => Number(At(finding.Conditions, 1)?.Probability)),
        ("beside", (_, finding) => List(finding.Beside)),
        ("cause", (_, finding) => Lead(finding)?.Cause ?? ""),
        ("cause_share", (_, finding) => Number(Lead(finding)?.Probability)),
        ("party", (_, finding) => At(finding.Parties, 0)?.Party ?? ""),
        ("party_share", (_, finding) => Number(At(finding.Parties, 0)?.Probability)),
        ("party_verdict", (_, finding) => finding.Parties.Count > 0 ? Upper(finding.PartyVerdict.ToString()) : ""),
        ("timing", (_, finding) => Upper(finding.Timing.Class.ToString())),
        ("dates", (_, finding) => Upper(finding.Claim.Dates.ToString())),
        ("ratings", (_, finding) => List(finding.Ratings.Select(one => $"{one.Standard}: {one.Designation}"))),
        ("first_step", (_, finding) => At(finding.Remedy.Steps, 0)?.Operation ?? ""),
        ("lightest_work", (_, finding) => RemedyClasses.Of(finding.Remedy) is { } range ? Upper(range.Lightest.ToString()) : ""),
        ("heaviest_work", (_, finding) => RemedyClasses.Of(finding.Remedy) is { } range ? Upper(range.Heaviest.ToString()) : ""),
        ("hours_low", (_, finding) => Number(RemedyClasses.Hours(finding.Remedy)?.Low)),
        ("hours_high", (_, finding) => Number(RemedyClasses.Hours(finding.Remedy)?.High)),
        ("must_not", (_, finding) => List(finding.Remedy.MustNot.Select(one => one.Operation).Distinct())),
        ("next_test", (_, finding) => At(finding.NextTests, 0)?.Test ?? ""),
        ("photo_issues", (_, finding) => List(finding.Photos.SelectMany(photo => photo.Issues).Select(issue => Upper(issue.Code.ToString())).Distinct())),
        ("photo_sha256", (_, finding) => List(finding.Photos.Select(photo => photo.Sha256))),
        ("service_version", (_, finding) => finding.Provenance.ServiceVersion),
        ("model_version", (_, finding) => finding.Provenance.ModelVersion),
        ("knowledge_version", (_, finding) => finding.Provenance.KnowledgeVersion),
        ("metric_set_version", (_, finding) => finding.Provenance.MetricSetVersion),
        ("failure", (entry, _) => entry.Failure),
    ];

    /// <summary>The names of the columns in order.</summary>
    public static IReadOnlyList<string> ColumnNames { get; } = [.. Columns.Select(column => column.Name)];

    /// <summary>The line of column names, with its end.</summary>
    public static string Head() => CsvText.Line(ColumnNames);

    /// <summary>The line of a finding or of a failure, with its end.</summary>
    public static string Row(OverviewEntry entry)
    {
        ArgumentNullException.ThrowIfNull(entry);
        return CsvText.Line(Columns.Select(column => (entry.Finding, column.Name) switch
        {
            ({ } finding, _) => column.Of(entry, finding),
            (null, "name") => entry.Name,
            (null, "failure") => entry.Failure,
            _ => "",
        }));
    }

    private static T? At<T>(IReadOnlyList<T> list, int index)
        where T : class => index < list.Count ? list[index] : null;

    private static CauseShare? Lead(Finding finding) => At(finding.Conditions, 0) is { } lead
        ? finding.Causes.FirstOrDefault(one => one.Condition == lead.Condition)
        : null;

    private static string List(IEnumerable<string> items) => string.Join("; ", items);

    private static string Number(double? value) => value?.ToString("0.####", CultureInfo.InvariantCulture) ?? "";

    // The words of the contract: NotAssessable is NOT_ASSESSABLE.
    private static string Upper(string name) => string.Concat(name.Select((letter, at) =>
        (at > 0 && char.IsUpper(letter) ? "_" : "") + char.ToUpperInvariant(letter)));
}
