using System.Globalization;
using CoatScan.Findings;

namespace CoatScan.Reports;

/// <summary>What the finding was made from and by what: enough to repeat it.</summary>
internal static class ProvenanceSection
{
    public static IEnumerable<Block> Blocks(Finding finding, SheetWords words)
    {
        Provenance from = finding.Provenance;
        yield return new Heading(2, words.MadeFrom);
        List<(string, string)> rows =
        [
            (words.Finding, finding.Name.Length > 0 ? finding.Name : words.NotStored),
            (words.MadeBy, SheetWords.Fill(words.Versions, from.ServiceVersion, from.KnowledgeVersion, from.MetricSetVersion)),
            (words.Classifier, $"{from.ModelVersion}, SHA-256 {from.ModelSha256}"),
        ];
        for (int index = 0; index < finding.Photos.Count; index++)
        {
            PhotoReport photo = finding.Photos[index];
            rows.Add((
                finding.Photos.Count > 1 ? Phrases.Capital(SheetWords.Fill(words.PhotoNumber, index + 1)) : words.Photo,
                string.Join(", ", new[]
                {
                    photo.DisplayName[(photo.DisplayName.LastIndexOfAny(['/', '\\']) + 1)..],
                    string.Create(CultureInfo.InvariantCulture, $"{photo.WidthPx} x {photo.HeightPx} px"),
                    photo.CaptureTime is { } time ? SheetWords.Fill(words.TakenAt, time) : "",
                    Scale(photo.Scale, words),
                    words.WhiteBalance(photo.Color.Source),
                    $"SHA-256 {photo.Sha256}",
                }.Where(part => part.Length > 0))));
        }

        yield return new FactList(rows);
    }

    private static string Scale(PhotoScale scale, SheetWords words) => scale.MmPerPx is { } mmPerPx
        ? SheetWords.Fill(
            scale.Source == ScaleSource.Card ? words.ScaleOfCard : words.ScaleOfCaller,
            mmPerPx.ToString("0.####", CultureInfo.InvariantCulture))
        : "";
}
