using System.Globalization;
using CoatScan.Findings;

namespace CoatScan.Reports;

/// <summary>What the finding was made from and by what: enough to repeat it.</summary>
internal static class ProvenanceSection
{
    private const int MostInFull = 3;

    public static IEnumerable<Block> Blocks(Finding finding, SheetWords words)
    {
        Provenance from = finding.Provenance;
        yield return new Heading(2, words.MadeFrom);
        List<(string, string)> rows =
        [
            (words.Finding, finding.Name.Length > 0 ? finding.Name : words.NotStored),
            (words.MadeBy, By(from, words)),
            (words.Classifier, ClassifierOf(from)),
        ];
        if (finding.Photos.Count > MostInFull)
        {
            // What holds for all photos is said once, and the digests stand one to a line.
            List<IReadOnlyList<string>> facts = [.. finding.Photos.Select(photo => Facts(photo, words))];
            List<string> shared = [.. facts[0].Where(fact => facts.TrueForAll(one => one.Contains(fact)))];
            rows.Add((words.Photos, string.Join(", ", shared.Append("SHA-256:"))));
            rows.AddRange(finding.Photos.Select((photo, index) => (
                string.Create(CultureInfo.InvariantCulture, $"{index + 1}. {Name(photo)}"),
                string.Join(", ", facts[index].Except(shared).Append(photo.Sha256)))));
        }
        else
        {
            rows.AddRange(finding.Photos.Select((photo, index) => (
                finding.Photos.Count > 1 ? Phrases.Capital(words.Fill(words.PhotoNumber, index + 1)) : words.Photo,
                string.Join(", ", Facts(photo, words).Prepend(Name(photo)).Append($"SHA-256 {photo.Sha256}").Where(part => part.Length > 0)))));
        }

        yield return new FactList(rows);
    }

    /// <summary>By what several findings were made, and the name of each; the log of the photos has their digests.</summary>
    public static IEnumerable<Block> OfAll(IReadOnlyList<FindingSubject> subjects, SheetWords words)
    {
        List<Provenance> made = [.. subjects.Select(one => one.Finding.Provenance).Distinct()];
        return
        [
            new Heading(2, words.MadeFrom),
            new FactList(
            [
                .. made.Select(from => (words.MadeBy, By(from, words))),
                .. made.Select(from => (words.Classifier, ClassifierOf(from))).Distinct(),
                .. subjects.Select(one => (
                    one.Subject,
                    (one.Finding.Name.Length > 0 ? one.Finding.Name : words.NotStored) + ", " + words.Format.Minute(one.Finding.CreateTime))),
            ]),
        ];
    }

    /// <summary>Size, capture time, scale and color of a photo.</summary>
    public static IReadOnlyList<string> Facts(PhotoReport photo, SheetWords words) =>
    [
        .. new[]
        {
            string.Create(CultureInfo.InvariantCulture, $"{photo.WidthPx} x {photo.HeightPx} px"),
            photo.CaptureTime is { } time ? words.Fill(words.TakenAt, words.Format.CameraTime(time)) : "",
            Scale(photo.Scale, words),
            words.WhiteBalance(photo.Color.Source),
        }.Where(part => part.Length > 0),
    ];

    /// <summary>Name of a photo without its folder.</summary>
    public static string Name(PhotoReport photo) => photo.DisplayName[(photo.DisplayName.LastIndexOfAny(['/', '\\']) + 1)..];

    private static string By(Provenance from, SheetWords words) => words.Fill(words.Versions, from.ServiceVersion, from.KnowledgeVersion, from.MetricSetVersion);

    private static string ClassifierOf(Provenance from) => $"{from.ModelVersion}, SHA-256 {from.ModelSha256}";

    /// <summary>Scale of a photo in words; empty where it has none.</summary>
    public static string Scale(PhotoScale scale, SheetWords words) => scale.MmPerPx is { } mmPerPx
        ? words.Fill(
            scale.Source == ScaleSource.Card ? words.ScaleOfCard : words.ScaleOfCaller,
            mmPerPx.ToString("0.####", words.Format.Marks))
        : "";
}
