using CoatScan.Reports;
using Microsoft.Net.Http.Headers;

namespace CoatScan.Service.Page;

/// <summary>Sends a sheet: a page to print, or a PDF.</summary>
internal static class SheetAnswer
{
    // A sheet is one file that needs no other: its style, its fonts and its pictures are inside.
    private const string SheetPolicy =
        "default-src 'none'; img-src data:; font-src data:; style-src 'unsafe-inline'; form-action 'none'; base-uri 'none'; frame-ancestors 'none'";

    /// <summary>Address of the photo guide for links of a sheet: none in a PDF, which is read where this service is not.</summary>
    public static string GuideFor(HttpRequest request) => IsPdf(request) ? "" : PageRoutes.Guide;

    /// <summary>Sends it.</summary>
    /// <param name="http">The request: <c>as=pdf</c> for PDF, <c>paper=letter|a4</c>.</param>
    /// <param name="sheet">The sheet.</param>
    /// <param name="created">Time that the PDF carries.</param>
    public static async Task SendAsync(HttpContext http, Sheet sheet, DateTimeOffset created)
    {
        var paper = new[] { Paper.A4, Paper.Letter }.FirstOrDefault(one => one.Name == http.Request.Query["paper"])
            ?? PageLanguage.PaperOf(http.Request);
        if (IsPdf(http.Request))
        {
            http.Response.ContentType = "application/pdf";
            http.Response.Headers.ContentDisposition = new ContentDispositionHeaderValue("inline") { FileName = "sheet.pdf" }.ToString();
            var bytes = await Task.Run(() => PdfWriter.Write(sheet, paper, created), http.RequestAborted).ConfigureAwait(false);
            await http.Response.Body.WriteAsync(bytes, http.RequestAborted).ConfigureAwait(false);
            return;
        }

        http.Response.Headers.ContentSecurityPolicy = SheetPolicy;
        http.Response.ContentType = "text/html; charset=utf-8";
        await http.Response.WriteAsync(HtmlWriter.Write(sheet, paper), http.RequestAborted).ConfigureAwait(false);
    }

    private static bool IsPdf(HttpRequest request) => request.Query["as"] == "pdf";
}
