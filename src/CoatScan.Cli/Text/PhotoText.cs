using CoatScan.V1;

namespace CoatScan.Cli.Text;

/// <summary>What limits the photos and how to take better ones.</summary>
internal static class PhotoText
{
    /// <summary>Writes one entry for each problem; photos with the same problem share it.</summary>
    public static void Write(TextPage page, Finding finding)
    {
        ArgumentNullException.ThrowIfNull(finding);
        var words = page.Words;
        var issues = finding.Photos
            .SelectMany((photo, index) => photo.Issues.Select(issue => (Issue: issue, Number: index + 1)))
            .GroupBy(one => one.Issue.Code)
            .Select(group =>
            {
                var first = group.First().Issue;
                var name = words.Say(Name(first.Code));
                var which = finding.Photos.Count > 1
                    ? words.Fill(" (photo {0})", words.List([.. group.Select(one => $"{one.Number}").Distinct()]))
                    : "";
                // A detail that begins with the name says it well enough by itself.
                var head = which.Length == 0 && words.Say(first.Detail).StartsWith(name, StringComparison.OrdinalIgnoreCase) ? "" : $"{name}{which}. ";
                var fix = first.HowToFix.Length > 0 ? words.Fill(" To do: {0}", words.Sentence(first.HowToFix)) : "";
                var limits = first.Limits.Length > 0 ? $" {words.Sentence(first.Limits)}" : "";
                return $"{head}{words.Sentence(first.Detail)}{limits}{fix}".Trim();
            });
        page.Entries("PHOTO", issues);
        page.Entries("AGAIN", finding.Photos.SelectMany(
            (photo, index) => photo.SeenBefore.Select(earlier => Earlier(earlier, index + 1, words))));
    }

    // Facts and no more: a picture comes again for many reasons.
    private static string Earlier(EarlierPicture earlier, int number, ReaderWords words)
    {
        var bytes = earlier.SameBytes ? words.Fill("the same file") : words.Fill("another file, {0} of 64 bits apart", earlier.DistanceBits);
        var day = words.Format.Day(earlier.CreateTime.ToDateTimeOffset());
        var taken = earlier.HasCaptureTime ? words.Fill("; it says it was taken {0}", words.Format.CameraTime(earlier.CaptureTime)) : "";
        return words.Fill("Photo {0} shows the same picture as one of {1} of {2} ({3}).", number, earlier.Finding, day, bytes + taken);
    }

    private static string Name(string code) => code switch
    {
        "BLURRED" => "Not sharp",
        "GLARE" => "Glare",
        "TOO_DARK" => "Too dark",
        "LOW_RESOLUTION" => "Too few pixels",
        "NO_SCALE" => "No scale",
        "SCALE_CONFLICT" => "Two scales",
        "OBLIQUE" => "At a slant",
        "NOISY" => "Noisy",
        "COMPRESSED" => "Compressed",
        "SCREEN_PHOTO" => "Photo of a screen",
        "FEATURELESS" => "One even tone",
        "FAULT_TOO_SMALL" => "Marks too small",
        "TOO_OBLIQUE" => "At too steep a slant",
        _ => Phrase.Capital(Phrase.OfId(code).ToLowerInvariant()),
    };
}
