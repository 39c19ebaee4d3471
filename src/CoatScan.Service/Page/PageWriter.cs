using System.Text.Encodings.Web;
using CoatScan.Reports;
using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Components.Web;

namespace CoatScan.Service.Page;

/// <summary>Renders a view into a page and sends it, in the language of the reader.</summary>
internal sealed class PageWriter(IServiceProvider services, ILoggerFactory loggers)
{
    /// <summary>The view's own context: language and address.</summary>
    public static PageContext ContextOf(HttpContext http)
    {
        var words = PageLanguage.Of(http.Request);
        var address = HttpMethods.IsGet(http.Request.Method) ? http.Request.Path + http.Request.QueryString : "/";
        return new(words, SheetWords.Of(words.Language), address);
    }

    /// <summary>Sends a page.</summary>
    /// <typeparam name="TView">The view.</typeparam>
    /// <param name="http">The request.</param>
    /// <param name="title">Title of the window.</param>
    /// <param name="content">Parameters of the view beside the context.</param>
    /// <param name="status">Status of the answer.</param>
    /// <param name="refreshes">Whether a browser without script asks again by itself.</param>
    public async Task SendAsync<TView>(
        HttpContext http,
        string title,
        Dictionary<string, object?> content,
        int status = StatusCodes.Status200OK,
        bool refreshes = false)
        where TView : PageView
    {
        var context = ContextOf(http);
        var body = await RenderAsync<TView>(context, content).ConfigureAwait(false);
        var frame = await RenderAsync<Views.FrameView>(context, new() { [nameof(Views.FrameView.Body)] = new MarkupString(body) })
            .ConfigureAwait(false);
        http.Response.StatusCode = status;
        http.Response.ContentType = "text/html; charset=utf-8";
        http.Response.Headers.ContentLanguage = context.Words.Language;
        http.Response.Headers.Vary = "Accept-Language, Cookie";
        await http.Response.WriteAsync(Document(context, title, frame, refreshes), http.RequestAborted).ConfigureAwait(false);
    }

    // A renderer keeps every component that it rendered; one a page lets them go.
    private async Task<string> RenderAsync<TView>(PageContext context, Dictionary<string, object?> content)
        where TView : PageView
    {
        await using var renderer = new HtmlRenderer(services, loggers);
        content[nameof(PageView.Page)] = context;
        return await renderer.Dispatcher.InvokeAsync(async () =>
        {
            var root = await renderer.RenderComponentAsync<TView>(ParameterView.FromDictionary(content)).ConfigureAwait(true);
            return root.ToHtmlString();
        }).ConfigureAwait(false);
    }

    // The head holds nothing but these; a component may not hold a script element.
    private static string Document(PageContext context, string title, string frame, bool refreshes) =>
        $"""
        <!DOCTYPE html>
        <html lang="{context.Words.Language}">
        <head>
        <meta charset="utf-8">
        <meta name="viewport" content="width=device-width, initial-scale=1">
        <meta name="color-scheme" content="light dark">
        <title>{HtmlEncoder.Default.Encode(title)} - CoatScan</title>
        <link rel="icon" href="{PageAsset.Mark.Href}" type="image/svg+xml">
        <link rel="stylesheet" href="{PageAsset.Style.Href}">
        <script src="{PageAsset.Script.Href}" defer></script>
        {(refreshes ? "<noscript><meta http-equiv=\"refresh\" content=\"5\"></noscript>" : "")}
        </head>
        <body>
        {frame}
        </body>
        </html>
        """;
}
