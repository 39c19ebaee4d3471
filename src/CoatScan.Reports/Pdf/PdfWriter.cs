using System.Globalization;
using System.IO.Compression;
using PdfSharp.Drawing;
using PdfSharp.Pdf;

namespace CoatScan.Reports;

/// <summary>A sheet as PDF: embedded fonts, a head and a page number on every page, title and language in its metadata.</summary>
public static class PdfWriter
{
    private const double PointsPerMm = 72 / 25.4;
    private const double SideMm = 17;
    private const double TopMm = 19;
    private const double BottomMm = 15;
    private const double MarginTextPt = 7.2;

    private static readonly double[] Shrink = [0.97, 0.94, 0.91, 0.88, 0.86];

    /// <summary>Writes the file.</summary>
    /// <param name="sheet">What it holds.</param>
    /// <param name="paper">Size of its pages.</param>
    /// <param name="created">When what it tells was found; goes into the metadata.</param>
    public static byte[] Write(Sheet sheet, Paper paper, DateTimeOffset created)
    {
        ArgumentNullException.ThrowIfNull(sheet);
        ArgumentNullException.ThrowIfNull(paper);
        using var document = new PdfDocument();
        // The library's compressed streams lack the checksum that their format ends with, so that strict readers complain: it
        // writes plain ones, and the pages, which are the large ones, are compressed here.
        document.Options.NoCompression = true;
        document.Options.CompressContentStreams = false;
        document.Info.Title = CleanText.Of(sheet.Title);
        document.Info.Creator = "CoatScan";
        document.Info.CreationDate = created.UtcDateTime;
        document.Language = sheet.Language;

        // A viewer shows the title rather than the name of the file (ISO 32000-1, 12.2).
        var preferences = new PdfDictionary(document);
        preferences.Elements.SetBoolean("/DisplayDocTitle", true);
        document.Internals.Catalog.Elements["/ViewerPreferences"] = preferences;

        double width = (paper.WidthMm - (2 * SideMm)) * PointsPerMm;
        double height = (paper.HeightMm - TopMm - BottomMm) * PointsPerMm;
        List<List<Strip>> pages;
        using (XGraphics measure = XGraphics.CreateMeasureContext(
            new XSize(1000, 1000), XGraphicsUnit.Point, XPageDirection.Downwards))
        {
            pages = Divide(sheet, measure, width, height);
        }

        for (int index = 0; index < pages.Count; index++)
        {
            Draw(document, sheet, paper, pages[index], index + 1, pages.Count);
        }

        foreach (PdfPage page in document.Pages)
        {
            for (int index = 0; index < page.Contents.Elements.Count; index++)
            {
                Compress(page.Contents.Elements.GetDictionary(index)!);
            }
        }

        using var file = new MemoryStream();
        document.Save(file, closeStream: false);
        return file.ToArray();
    }

    // The largest letters with which it keeps to its pages; the usual ones where even the smallest do not.
    private static List<List<Strip>> Divide(Sheet sheet, XGraphics measure, double width, double height)
    {
        List<List<Strip>> usual = Of(1);
        return sheet.WantedPages == 0 || usual.Count <= sheet.WantedPages
            ? usual
            : Shrink.Select(Of).FirstOrDefault(pages => pages.Count <= sheet.WantedPages) ?? usual;

        List<List<Strip>> Of(double shrink) =>
            PdfPages.Divide(new PdfLayout(measure, sheet.Scale * shrink).All(sheet.Blocks, width), height);
    }

    private static void Draw(PdfDocument document, Sheet sheet, Paper paper, List<Strip> strips, int number, int count)
    {
        PdfPage page = document.AddPage();
        page.Width = XUnit.FromMillimeter(paper.WidthMm);
        page.Height = XUnit.FromMillimeter(paper.HeightMm);
        using XGraphics graphics = XGraphics.FromPdfPage(page);
        double left = SideMm * PointsPerMm;
        double right = (paper.WidthMm - SideMm) * PointsPerMm;
        double top = TopMm * PointsPerMm;
        XFont font = SheetFonts.Of(MarginTextPt, strong: false);
        var brush = new XSolidBrush(PdfText.Ink(0.32));
        string pageOf = string.Create(CultureInfo.InvariantCulture, $"{number} / {count}");
        double pageOfWidth = graphics.MeasureString(pageOf, font).Width;
        graphics.DrawString(Fitting(graphics, font, sheet.RunningHead, right - left - pageOfWidth - 12), font, brush, left, top - 13);
        graphics.DrawString(pageOf, font, brush, right - pageOfWidth, top - 13);
        graphics.DrawLine(new XPen(PdfText.Ink(0.7), 0.5), left, top - 9, right, top - 9);

        var canvas = new Canvas(graphics, (area, href) => page.AddWebLink(
            new PdfRectangle(graphics.Transformer.WorldToDefaultPage(area)), href));
        double down = top;
        foreach (Strip strip in strips)
        {
            strip.Draw(canvas, left, down);
            down += strip.Height;
        }
    }

    private static void Compress(PdfDictionary content)
    {
        using var packed = new MemoryStream();
        using (var zlib = new ZLibStream(packed, CompressionLevel.Optimal, leaveOpen: true))
        {
            zlib.Write(content.Stream!.Value);
        }

        content.Stream.Value = packed.ToArray();
        content.Elements.SetName("/Filter", "/FlateDecode");
    }

    private static string Fitting(XGraphics graphics, XFont font, string text, double width)
    {
        string fitting = CleanText.Of(text);
        while (fitting.Length > 1 && graphics.MeasureString(fitting, font).Width > width)
        {
            fitting = fitting[..^2].TrimEnd() + "\u2026";
        }

        return fitting;
    }
}
