using System.IO.Compression;
using System.Text;
using System.Text.RegularExpressions;
using UglyToad.PdfPig;

namespace CoatScan.ReportsTests;

public sealed partial class PdfTests
{
    private static readonly DateTimeOffset Created = new(2026, 5, 2, 9, 30, 0, TimeSpan.Zero);

    [Fact]
    public void Write_full_finding_shows_every_part_on_one_or_two_pages()
    {
        using var document = Open(PdfWriter.Write(FindingSheet.Of(Samples.FullSubject(), SheetWords.English), Paper.A4, Created));

        Assert.InRange(document.NumberOfPages, 1, 2);
        var text = Squeezed(TextOf(document));
        Assert.All(Samples.EveryPart, part => Assert.Contains(Squeezed(part), text, StringComparison.OrdinalIgnoreCase));
    }

    [Theory]
    [InlineData("a4", 595, 842)]
    [InlineData("letter", 612, 792)]
    public void Write_pages_have_paper_numbers_head_and_title(string name, int widthPt, int heightPt)
    {
        var paper = name == "a4" ? Paper.A4 : Paper.Letter;
        var subjects = Enumerable.Range(0, 3).Select(_ => Samples.FullSubject()).ToList();
        using var document = Open(PdfWriter.Write(VehicleSheet.Of("AB 123", subjects, [], SheetWords.English), paper, Created));

        Assert.InRange(document.NumberOfPages, 4, 8);
        foreach (var page in document.GetPages())
        {
            Assert.Equal(widthPt, page.Width, 1.0);
            Assert.Equal(heightPt, page.Height, 1.0);
            var text = Squeezed(page.Text);
            Assert.Contains(Squeezed($"{page.Number} / {document.NumberOfPages}"), text, StringComparison.Ordinal);
            Assert.Contains("VehicleAB123", text, StringComparison.Ordinal);
            Assert.All(page.Letters, letter => Assert.InRange(letter.BoundingBox.Right, 0, page.Width - 40));
            Assert.All(page.Letters, letter => Assert.InRange(letter.BoundingBox.Bottom, 40, page.Height));
        }

        Assert.Equal("Vehicle AB 123", document.Information.Title);
    }

    [Fact]
    public void Write_carries_its_fonts_and_every_packed_stream_is_whole()
    {
        byte[] pdf = PdfWriter.Write(FindingSheet.Of(Samples.FullSubject(), SheetWords.English), Paper.A4, Created);
        string raw = Encoding.Latin1.GetString(pdf);

        int fonts = Regex.Count(raw, @"/Type\s*/FontDescriptor");
        Assert.InRange(fonts, 2, 4);
        Assert.Equal(fonts, Regex.Count(raw, @"/FontFile2 "));
        Assert.DoesNotContain("/Helvetica", raw, StringComparison.Ordinal);
        var streams = PackedStream().Matches(raw).ToList();
        Assert.NotEmpty(streams);
        foreach (Match stream in streams)
        {
            int length = int.Parse(stream.Groups[1].Value, System.Globalization.CultureInfo.InvariantCulture);
            byte[] packed = pdf[stream.Index..][stream.Length..(stream.Length + length)];
            using var unpacked = new MemoryStream();
            using (var zlib = new ZLibStream(new MemoryStream(packed), CompressionMode.Decompress))
            {
                zlib.CopyTo(unpacked);
            }

            // RFC 1950 ends with the Adler-32 of what was packed.
            Assert.Equal(Adler32(unpacked.ToArray()), (uint)((packed[^4] << 24) | (packed[^3] << 16) | (packed[^2] << 8) | packed[^1]));
        }
    }

    [Fact]
    public void Write_letters_that_no_font_has_and_long_words_do_no_harm()
    {
        var finding = Samples.Bare() with { Panel = "дверь Tür 門 \U0001F697 \uD800 " + new string('x', 300) };
        using var document = Open(PdfWriter.Write(FindingSheet.Of(new("case", finding, []), SheetWords.English), Paper.A4, Created));

        var text = Squeezed(TextOf(document));
        Assert.Contains("дверьTür", text, StringComparison.Ordinal);
        Assert.Contains(new string('x', 300), text, StringComparison.Ordinal);
    }

    [Fact]
    public void Write_long_table_repeats_its_head_on_every_page()
    {
        var entries = Enumerable.Range(0, 120).Select(i => new OverviewEntry($"panel {i}", Samples.Bare())).ToList();
        using var document = Open(PdfWriter.Write(Overview.Of(entries, SheetWords.English, []), Paper.A4, Created));

        Assert.InRange(document.NumberOfPages, 3, 8);
        Assert.All(document.GetPages(), page => Assert.Contains("Howsure", Squeezed(page.Text), StringComparison.Ordinal));
        Assert.All(Enumerable.Range(0, 120), i => Assert.Contains($"panel{i}", Squeezed(TextOf(document)), StringComparison.Ordinal));
    }

    [Fact]
    public void Write_notes_cards_and_the_guide_are_one_page()
    {
        Sheet[] sheets =
        [
            CustomerNote.Of(Samples.FullSubject(), SheetWords.English), JobCard.Of(Samples.FullSubject(), SheetWords.English), PhotoGuide.Of(SheetWords.English),
        ];
        foreach (var sheet in sheets)
        {
            using var document = Open(PdfWriter.Write(sheet, Paper.Letter, Created));
            Assert.Equal(1, document.NumberOfPages);
        }
    }

    private static PdfDocument Open(byte[] pdf) => PdfDocument.Open(pdf);

    private static string TextOf(PdfDocument document) => string.Concat(document.GetPages().Select(page => page.Text));

    // Lines and columns break text at spaces.
    private static string Squeezed(string text) => Regex.Replace(text, @"\s", "");

    private static uint Adler32(byte[] bytes)
    {
        uint a = 1;
        uint b = 0;
        foreach (byte one in bytes)
        {
            a = (a + one) % 65_521;
            b = (b + a) % 65_521;
        }

        return (b << 16) | a;
    }

    [GeneratedRegex(@"/Length (\d+)[^>]*/FlateDecode[^>]*>>\s*stream\r?\n")]
    private static partial Regex PackedStream();
}
