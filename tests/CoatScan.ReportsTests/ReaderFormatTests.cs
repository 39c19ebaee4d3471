using System.Globalization;
using System.Xml.Linq;
using CoatScan.Findings;

namespace CoatScan.ReportsTests;

/// <summary>Decimal marks and days as the language writes them: Unicode CLDR 47, chart "By-Type: Numbers: Symbols" (de and es: comma) and
/// "Date and Time: Gregorian", format yMd (de: d.M.y; es: d/M/y), here with two digits for day and month.</summary>
public sealed class ReaderFormatTests
{
    [Theory]
    [InlineData("en", "0.25", "2026-05-02", "2026-05-02 09:30 UTC", "2026-05-02 10:00:05")]
    [InlineData("de", "0,25", "02.05.2026", "02.05.2026 09:30 UTC", "02.05.2026 10:00:05")]
    [InlineData("es", "0,25", "02/05/2026", "02/05/2026 09:30 UTC", "02/05/2026 10:00:05")]
    [InlineData("fr", "0.25", "2026-05-02", "2026-05-02 09:30 UTC", "2026-05-02 10:00:05")]
    public void Numbers_and_days_are_those_of_the_language(string language, string number, string day, string minute, string camera)
    {
        ReaderFormat format = ReaderFormat.Of(language);
        var time = new DateTimeOffset(2026, 5, 2, 11, 30, 0, TimeSpan.FromHours(2));

        Assert.Equal(number, 0.25.ToString("0.##", format.Marks));
        Assert.Equal($"a {number} b 1234 c", format.Fill("a {0} b {1} c", 0.25, 1234));
        Assert.Equal(day, format.Day(new DateOnly(2026, 5, 2)));
        Assert.Equal(day, format.Day(time));
        Assert.Equal(minute, format.Minute(time));
        Assert.Equal(camera, format.CameraTime("2026-05-02T10:00:05"));
        Assert.Equal("yesterday", format.CameraTime("yesterday"));
    }

    [Theory]
    [InlineData("61.2 %", "61,2 %")]
    [InlineData("0.6", "0,6")]
    [InlineData("1234", "1234")]
    [InlineData("Ri 3(S4)", "Ri 3(S4)")]
    [InlineData("3.1.0", "3.1.0")]
    [InlineData("12.", "12.")]
    public void A_number_in_a_text_gets_the_mark_and_a_version_stays(string text, string said)
    {
        Assert.Equal(said, ReaderFormat.Of("de").Number(text));
        Assert.Equal(text, ReaderFormat.Of("en").Number(text));
        Assert.Equal(said, ReaderFormat.Of("es").Number(said));
    }

    [Theory]
    [InlineData("de")]
    [InlineData("es")]
    public void No_number_on_a_sheet_has_a_decimal_point(string language)
    {
        SheetWords words = SheetWords.Of(language);
        FindingSubject subject = Samples.FullSubject();
        string[] versions = ["1.2.3", "9.8.7", "2026.11.9"];

        foreach (Sheet sheet in new[] { FindingSheet.Of(subject, words), JobCard.Of(subject, words), CustomerNote.Of(subject, words), VehicleSheet.Of("AB 1", [subject], [], words), PhotoGuide.Of(words) })
        {
            string text = versions.Aggregate(
                XDocument.Parse(HtmlWriter.Write(sheet, Paper.A4).Replace("<!DOCTYPE html>", "", StringComparison.Ordinal)).Root!.Element("body")!.Value,
                (rest, version) => rest.Replace(version, "", StringComparison.Ordinal));

            Assert.DoesNotMatch(@"(?<![0-9.])[0-9]+\.[0-9]+(?![0-9.])", text);
            Assert.DoesNotMatch("[0-9]{4}-[0-9]{2}-[0-9]{2}", text);
        }
    }

    [Fact]
    public void The_table_for_programs_keeps_its_point_and_its_days_in_any_language()
    {
        Finding german = FindingWords.In(Samples.Full(), TradeWords.Of("de"));

        string row = FindingTable.Row(new("door.jpg", german));

        Assert.Contains(german.Conditions[0].Probability.ToString("0.####", CultureInfo.InvariantCulture), row, StringComparison.Ordinal);
        Assert.Contains("2026-05-02T09:30:00Z", row, StringComparison.Ordinal);
        Assert.Contains("0.5,10", row, StringComparison.Ordinal);
    }
}
