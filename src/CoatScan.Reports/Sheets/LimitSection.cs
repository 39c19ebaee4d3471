using System.Globalization;
using CoatScan.Findings;

namespace CoatScan.Reports;

/// <summary>What could not be assessed and why, and which photo to take again, with the way to its picture in the guide.</summary>
internal static class LimitSection
{
    private const int MostNames = 2;
    private const int MostReasons = 4;

    public static IEnumerable<Block> Blocks(Finding finding, SheetWords words, string guideHref)
    {
        List<IReadOnlyList<Text>> photos = [.. finding.Photos.SelectMany((photo, index) => photo.Issues.Select(issue => Issue(
            issue, finding.Photos.Count > 1 ? index + 1 : null, words, guideHref)))];
        List<IReadOnlyList<Text>> absent = [.. finding.Measurements
            .Where(one => one.AbsentReason is not null)
            .GroupBy(one => one.AbsentReason!, one => words.Metric(one.Metric))
            .OrderByDescending(group => group.Count())
            .Select(group => Absent(group.Key, [.. group.Distinct()], words))];
        int more = absent.Count - MostReasons;
        if (more > 0)
        {
            absent = [.. absent.Take(MostReasons), [SheetWords.Fill(words.MoreReasons, more)]];
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

    private static List<Text> Issue(PhotoIssue issue, int? number, SheetWords words, string guideHref)
    {
        GuidePicture picture = GuidePictures.For(issue.Code);
        List<Text> item =
        [
            Text.Bold(words.PhotoIssue(issue.Code) + (number is { } which ? $" ({SheetWords.Fill(words.PhotoNumber, which)})" : "") + ". "),
            string.Concat(new[] { issue.Detail, issue.Limits, issue.HowToFix }.Where(part => part.Length > 0).Select(part => Phrases.Sentence(part) + " ")),
        ];
        if (guideHref.Length > 0)
        {
            item.Add(new Text(SheetWords.Fill(words.SeeGuide, (int)picture + 1), Href: $"{guideHref}#{GuidePictures.Anchor(picture)}"));
            item.Add(".");
        }

        return item;
    }

    private static Text[] Absent(string reason, List<string> names, SheetWords words)
    {
        string list = names.Count <= MostNames
            ? string.Join(", ", names)
            : string.Join(", ", names.Take(MostNames)) + " " + SheetWords.Fill(words.AndMore, (names.Count - MostNames).ToString(CultureInfo.InvariantCulture));
        return [Text.Bold(Phrases.Capital(reason.Trim().TrimEnd('.')) + ": "), list + "."];
    }
}
