using System.Globalization;
using System.Text;
using System.Text.RegularExpressions;
using CoatScan.Imaging.Cards;
using PdfSharp.Pdf;
using PdfSharp.Pdf.IO;
using ZXing;
using ZXing.Common;
using ZXing.QrCode;

namespace CoatScan.ImagingTests.Cards;

public sealed class ScaleCardPdfTests
{
    private const double MmPerPoint = 25.4 / 72;

    // Raster of the parsed page on which the code is read.
    private const int PxPerMm = 8;

    [Theory]
    [InlineData("A4", 210, 297)]
    [InlineData("LETTER", 215.9, 279.4)]
    public void Sheet_is_true_to_size(string paper, double widthMm, double heightMm)
    {
        var page = Open(paper, out _);
        var boxes = Rectangles(page);

        Assert.Equal(widthMm, page.Width.Millimeter, 0.01);
        Assert.Equal(heightMm, page.Height.Millimeter, 0.01);

        // The rule: the only line of 100 mm.
        var rule = Assert.Single(boxes, box => Math.Abs(box.Width - 100) < 0.01);
        var marks = boxes.Where(box => box.Width < 0.5 && box.Height is > 3 and < 5).Select(box => box.Left + (box.Width / 2)).Order().ToList();
        Assert.Equal(11, marks.Count);
        Assert.All(marks, (mark, i) => Assert.Equal(rule.Left + (10 * i), mark, 0.01));

        // The frame, and all inside the sheet with a margin that printers keep.
        Assert.Equal(ScaleCard.WidthMm, boxes.Max(box => box.Left + box.Width) - boxes.Min(box => box.Left), 0.01);
        Assert.Equal(ScaleCard.HeightMm, boxes.Max(box => box.Bottom + box.Height) - boxes.Min(box => box.Bottom), 0.01);
        Assert.True(boxes.Min(box => box.Left) > 10 && boxes.Max(box => box.Left + box.Width) < widthMm - 10);
    }

    [Fact]
    public void Sheet_code_reads_and_has_the_size_that_it_states()
    {
        var page = Open("A4", out ScaleCard card);
        var boxes = Rectangles(page);
        double left = boxes.Min(box => box.Left) + 5;
        double top = boxes.Max(box => box.Bottom + box.Height) - 5;
        var code = boxes
            .Where(box => box.Gray == 0 && box.Left > left && box.Left + box.Width < left + 56 && box.Bottom > top - 55 && box.Bottom + box.Height < top)
            .ToList();

        Assert.Equal(card.Message.CodeSideMm, code.Max(box => box.Left + box.Width) - code.Min(box => box.Left), 0.01);
        Assert.Equal(card.Message.CodeSideMm, code.Max(box => box.Bottom + box.Height) - code.Min(box => box.Bottom), 0.01);
        Assert.Equal(card.Message.ToText(), ReadCode(boxes));
    }

    [Fact]
    public void Sheet_says_how_to_print_it_and_forbids_scaling()
    {
        var page = Open("A4", out _);
        string content = Content(page);

        Assert.Contains("(Print at 100 %, check with a rule: this line is 100 mm.", content, StringComparison.Ordinal);
        Assert.Contains("(Vehicle: AB-12 \\(new\\))", content, StringComparison.Ordinal);
        var preferences = page.Owner.Internals.Catalog.Elements.GetDictionary("/ViewerPreferences");
        Assert.Equal("/None", preferences!.Elements.GetName("/PrintScaling"));
    }

    private static PdfPage Open(string paper, out ScaleCard card)
    {
        card = ScaleCard.Of("AB-12 (new)", "hood");
        byte[] pdf = ScaleCardPdf.Write(card, paper == "A4" ? CardPaper.A4 : CardPaper.Letter);
        return Assert.Single(PdfReader.Open(new MemoryStream(pdf), PdfDocumentOpenMode.Import).Pages.Cast<PdfPage>());
    }

    private static string Content(PdfPage page) =>
        Encoding.Latin1.GetString(page.Contents.CreateSingleContent().Stream!.UnfilteredValue);

    private static List<(double Left, double Bottom, double Width, double Height, double Gray)> Rectangles(PdfPage page)
    {
        var boxes = new List<(double, double, double, double, double)>();
        double gray = 0;
        foreach (Match match in Regex.Matches(Content(page), @"^([\d.]+) g$|^([\d.]+) ([\d.]+) ([\d.]+) ([\d.]+) re f$", RegexOptions.Multiline))
        {
            double Number(int group) => double.Parse(match.Groups[group].Value, CultureInfo.InvariantCulture);
            if (match.Groups[1].Success)
            {
                gray = Number(1);
            }
            else
            {
                boxes.Add((Number(2) * MmPerPoint, Number(3) * MmPerPoint, Number(4) * MmPerPoint, Number(5) * MmPerPoint, gray));
            }
        }

        return boxes;
    }

    private static string? ReadCode(List<(double Left, double Bottom, double Width, double Height, double Gray)> boxes)
    {
        int width = 210 * PxPerMm;
        int height = 297 * PxPerMm;
        var tones = new byte[width * height];
        Array.Fill(tones, byte.MaxValue);
        foreach (var (left, bottom, boxWidth, boxHeight, gray) in boxes)
        {
            int right = (int)Math.Round((left + boxWidth) * PxPerMm);
            for (int y = (int)Math.Round((297 - bottom - boxHeight) * PxPerMm); y < (int)Math.Round((297 - bottom) * PxPerMm); y++)
            {
                for (int x = (int)Math.Round(left * PxPerMm); x < right; x++)
                {
                    tones[(y * width) + x] = (byte)(255 * gray);
                }
            }
        }

        var source = new RGBLuminanceSource(tones, width, height, RGBLuminanceSource.BitmapFormat.Gray8);
        return new QRCodeReader().decode(new BinaryBitmap(new HybridBinarizer(source)))?.Text;
    }
}
