using System.Xml.Linq;
using UglyToad.PdfPig;

namespace CoatScan.ReportsTests;

/// <summary>Sheets in every language that there is.</summary>
public sealed class LanguageTests
{
    public static TheoryData<string> Languages => [.. SheetWords.All.Select(words => words.Language)];

    [Theory]
    [MemberData(nameof(Languages))]
    public void Sheet_of_a_language_says_so_and_keeps_what_the_finding_says(string language)
    {
        var sheet = FindingSheet.Of(Samples.FullSubject(), SheetWords.Of(language));

        Assert.Equal(language, XDocument.Parse(Html(sheet)).Root!.Attribute("lang")!.Value);
        var text = XDocument.Parse(Html(sheet)).Root!.Value;
        Assert.Contains("Water under the film", text, StringComparison.Ordinal);
        Assert.Contains("3(S4)", text, StringComparison.Ordinal);
    }

    [Theory]
    [MemberData(nameof(Languages))]
    public void Every_sheet_can_be_written(string language)
    {
        var words = SheetWords.Of(language);
        var subject = Samples.FullSubject();
        Sheet[] sheets =
        [
            FindingSheet.Of(subject, words), CustomerNote.Of(subject, words), JobCard.Of(subject, words), PhotoGuide.Of(words),
            VehicleSheet.Of("AB 1", [subject], [new OverviewEntry("door.jpg", null, "no photo")], words),
        ];

        foreach (var sheet in sheets)
        {
            using var document = PdfDocument.Open(PdfWriter.Write(sheet, Paper.A4, DateTimeOffset.UnixEpoch));
            Assert.DoesNotContain(document.GetPages().SelectMany(page => page.Letters), letter => letter.Value == "\uFFFD");
        }
    }

    [Fact]
    public void Languages_say_different_things_and_an_unknown_one_is_english()
    {
        Assert.Equal(3, SheetWords.All.Select(words => FindingSheet.Of(Samples.FullSubject(), words).RunningHead).Distinct().Count());
        Assert.Same(SheetWords.English, SheetWords.Of("fr"));
    }

    private static string Html(Sheet sheet) => HtmlWriter.Write(sheet, Paper.A4).Replace("<!DOCTYPE html>", "", StringComparison.Ordinal);
}
