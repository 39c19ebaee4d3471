using System.Globalization;
using System.Text;
using PdfSharp.Drawing;
using PdfSharp.Pdf;

namespace CoatScan.Imaging.Cards;

/// <summary>Writes a card on a sheet, true to size, as PDF.</summary>
/// <remarks>
/// The library writes the file's structure. Rectangles and text are written in the page's own operators (ISO 32000-1, 8.5 and 9.4) in
/// Helvetica, one of the 14 fonts that every viewer has, so that no font file needs to be at hand.
/// </remarks>
public static class ScaleCardPdf
{
    private const double PointsPerMm = 72 / 25.4;
    private const double CardTopMm = 30;

    // Fixed, so that equal cards give equal sheets but for what the library stamps.
    private static readonly DateTime NoDate = new(2000, 1, 1, 0, 0, 0, DateTimeKind.Utc);

    /// <summary>Writes one sheet.</summary>
    public static byte[] Write(ScaleCard card, CardPaper paper)
    {
        ArgumentNullException.ThrowIfNull(card);
        ArgumentNullException.ThrowIfNull(paper);
        using var document = new PdfDocument();
        document.Options.NoCompression = true;
        document.Options.CompressContentStreams = false;
        document.Info.Title = "Scale card";
        document.Info.CreationDate = NoDate;
        PdfPage page = document.AddPage();
        page.Width = XUnit.FromMillimeter(paper.WidthMm);
        page.Height = XUnit.FromMillimeter(paper.HeightMm);

        var helvetica = new PdfDictionary(document);
        helvetica.Elements.SetName("/Type", "/Font");
        helvetica.Elements.SetName("/Subtype", "/Type1");
        helvetica.Elements.SetName("/BaseFont", "/Helvetica");
        helvetica.Elements.SetName("/Encoding", "/WinAnsiEncoding");
        var fonts = new PdfDictionary(document);
        fonts.Elements["/F1"] = helvetica;
        page.Resources.Elements["/Font"] = fonts;

        // A viewer that obeys prints without fitting to the page (ISO 32000-1, 12.2).
        var preferences = new PdfDictionary(document);
        preferences.Elements.SetName("/PrintScaling", "/None");
        document.Internals.Catalog.Elements["/ViewerPreferences"] = preferences;

        page.Contents.AppendContent().CreateStream(Content(card, paper));
        using var file = new MemoryStream();
        document.Save(file, closeStream: false);
        return file.ToArray();
    }

    private static byte[] Content(ScaleCard card, CardPaper paper)
    {
        double left = (paper.WidthMm - ScaleCard.WidthMm) / 2;
        double top = paper.HeightMm - CardTopMm;
        var operators = new StringBuilder();
        void Line(FormattableString line) => operators.Append(line.ToString(CultureInfo.InvariantCulture)).Append('\n');

        foreach (CardRectangle one in card.Rectangles)
        {
            // Device gray is what the printer takes for a tone-coded value; the square root comes close to that code.
            Line($"{Math.Sqrt(one.Reflectance):0.####} g");
            double x = left + one.XMm;
            double y = top - one.YMm - one.HeightMm;
            Line($"{x * PointsPerMm:0.####} {y * PointsPerMm:0.####} {one.WidthMm * PointsPerMm:0.####} {one.HeightMm * PointsPerMm:0.####} re f");
        }

        Line($"0 g");
        foreach (CardLabel label in card.Labels)
        {
            double x = (left + label.XMm) * PointsPerMm;
            double y = (top - label.YMm) * PointsPerMm;
            Line($"BT /F1 {label.SizeMm * PointsPerMm:0.###} Tf {x:0.####} {y:0.####} Td ({Escape(label.Text)}) Tj ET");
        }

        return Encoding.Latin1.GetBytes(operators.ToString());
    }

    // Letters outside Latin-1 print as a question mark; the code carries them whole.
    private static string Escape(string text) => text
        .Replace("\\", "\\\\", StringComparison.Ordinal)
        .Replace("(", "\\(", StringComparison.Ordinal)
        .Replace(")", "\\)", StringComparison.Ordinal);
}
