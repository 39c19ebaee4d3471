using System.Globalization;
using CoatScan.Findings;

namespace CoatScan.Reports;

/// <summary>What could not be assessed and why, and which photo to take again, with the way to its picture in the guide.</summary>
internal static class LimitSection
{
    private const int MostNames = 2;
    private const int MostReasons = 4;

    // How many reasons are left out is said.
    private const int MostReasonsOfCrowded = 2;

    public static IEnumerable<Block> Blocks(Finding finding, SheetWords words, string guideHref, bool isCrowded)
    {
        List<IReadOnlyList<Text>> photos = [.. finding.Photos
            .SelectMany((photo, index) => photo.Issues.Select(issue => (Issue: issue, Number: index + 1)))
            .GroupBy(one => (one.Issue.Code, one.Issue.Limits, one.Issue.HowToFix))
            .Select(group => Issue([.. group], finding.Photos.Count > 1, words, guideHref))];
        List<IReadOnlyList<Text>> absent = [.. finding.Measurements
            .Where(one => one.AbsentReason is not null)
            .GroupBy(one => one.AbsentReason!, one => words.Metric(one.Metric))
            .OrderByDescending(group => group.Count())
            .Select(group => Absent(group.Key, [.. group.Distinct()], words))];
        int most = isCrowded ? MostReasonsOfCrowded : MostReasons;
        int more = absent.Count - most;
        if (more > 0)
        {
            absent = [.. absent.Take(most), [words.Fill(words.MoreReasons, more)]];
        }

        if (photos.Count > 0)
        {
            yield return new Heading(3, words.PhotosToTakeAgain);
            yield return new ItemList(false, photos);
        }

        if (absent.Count > 0)
        {
            yield return new Heading(3, words.NotMeasured);
            yield return new ItemList(false, absent);
        }
    }

    /// <summary>Limits that every finding of several has, said once.</summary>
    public static IEnumerable<Block> Shared(IReadOnlyList<PhotoIssue> issues, IReadOnlyList<(string Reason, IReadOnlyList<string> Metrics)> absent, SheetWords words, string guideHref) => Columns.Of(
        issues.Count == 0 ? [] :
        [
            new Heading(3, words.PhotosToTakeAgain),
            new ItemList(false, [.. issues.Select(one => Issue([(one, 1)], isNumbered: false, words, guideHref))]),
        ],
        absent.Count == 0 ? [] :
        [
            new Heading(3, words.NotMeasured),
            new ItemList(false, [.. absent.Select(one => Absent(one.Reason, [.. one.Metrics.Select(words.Metric).Distinct()], words))]),
        ]);

    // What holds for several photos is said once; what was measured on each, with each.
    private static List<Text> Issue(List<(PhotoIssue Issue, int Number)> group, bool isNumbered, SheetWords words, string guideHref)
    {
        PhotoIssue issue = group[0].Issue;
        List<string> details = [.. group.Select(one => one.Issue.Detail).Distinct()];
        string which = string.Join(", ", group.Select(one => one.Number.ToString(CultureInfo.InvariantCulture)));
        string name = group.Count == 1 ? words.Fill(words.PhotoNumber, which) : words.Fill(words.PhotoNumbers, which);
        string detail = details.Count == 1 || !isNumbered
            ? string.Join(" ", details.Select(Phrases.Sentence))
            : string.Join(" ", group.Select(one => $"{one.Number}: {Phrases.Sentence(one.Issue.Detail)}"));
        GuidePicture picture = GuidePictures.For(issue.Code);
        List<Text> item =
        [
            Text.Bold(words.PhotoIssue(issue.Code) + (isNumbered ? $" ({name})" : "") + ". "),
            string.Concat(new[] { detail, issue.Limits, issue.HowToFix }.Where(part => part.Length > 0).Select(part => Phrases.Sentence(part) + " ")),
        ];
        if (guideHref.Length > 0)
        {
            item.Add(new Text(words.Fill(words.SeeGuide, (int)picture + 1), Href: $"{guideHref}#{GuidePictures.Anchor(picture)}"));
            item.Add(".");
        }

        return item;
    }

    private static Text[] Absent(string reason, List<string> names, SheetWords words)
    {
        string list = names.Count <= MostNames
            ? string.Join(", ", names)
            : string.Join(", ", names.Take(MostNames)) + " " + words.Fill(words.AndMore, (names.Count - MostNames).ToString(CultureInfo.InvariantCulture));
        return [Text.Bold(Phrases.Capital(reason.Trim().TrimEnd('.')) + ": "), list + "."];
    }
}
