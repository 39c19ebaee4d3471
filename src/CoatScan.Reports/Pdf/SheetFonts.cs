using PdfSharp.Drawing;
using PdfSharp.Fonts;
using PdfSharp.Pdf;

namespace CoatScan.Reports;

/// <summary>The fonts of printed sheets, which travel inside the assembly: no font of the machine is used.</summary>
internal sealed class SheetFonts : IFontResolver
{
    private const string Family = "Open Sans";
    private const string Regular = "OpenSans-Regular.ttf";
    private const string Strong = "OpenSans-Semibold.ttf";

    // The library keeps one resolver for the whole process; it must be there before the first font.
    private static readonly Lazy<XPdfFontOptions> Options = new(() =>
    {
        GlobalFontSettings.FontResolver ??= new SheetFonts();
        return new XPdfFontOptions(PdfFontEncoding.Unicode, PdfFontEmbedding.TryComputeSubset);
    });

    private SheetFonts()
    {
    }

    /// <summary>The font of a size.</summary>
    /// <param name="sizePt">Size, points.</param>
    /// <param name="strong">Whether it stands out.</param>
    public static XFont Of(double sizePt, bool strong)
    {
        XPdfFontOptions options = Options.Value;
        return new(Family, sizePt, strong ? XFontStyleEx.Bold : XFontStyleEx.Regular, options);
    }

    /// <inheritdoc/>
    public FontResolverInfo? ResolveTypeface(string familyName, bool isBold, bool isItalic) =>
        new(isBold ? Strong : Regular);

    /// <inheritdoc/>
    public byte[]? GetFont(string faceName) => OwnResource.Bytes(faceName);
}
