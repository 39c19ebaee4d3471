using CoatScan.Findings;
using CoatScan.Service.Endpoints;
using Code = Google.Rpc.Code;
using ErrorInfo = Google.Rpc.ErrorInfo;
using Status = Google.Rpc.Status;

namespace CoatScan.Service.Page;

/// <summary>Around every handler of the page: headers, forms of other sites, and refusals told in words.</summary>
internal sealed class PageGuard(ErrorInterceptor errors, PageWriter writer)
{
    /// <summary>What a page may load and where it may send: itself and nothing else; no script or style inside it.</summary>
    public const string Policy =
        "default-src 'none'; img-src 'self' data:; style-src 'self'; script-src 'self'; connect-src 'self'; "
        + "form-action 'self'; base-uri 'none'; frame-ancestors 'none'";

    /// <summary>The handler with all that around it.</summary>
    public RequestDelegate Around(Func<HttpContext, Task> handler) => http => RunAsync(http, handler);

    /// <summary>Headers of everything that the page sends.</summary>
    public static void SetHeaders(HttpResponse response)
    {
        response.Headers.ContentSecurityPolicy = Policy;
        response.Headers.XContentTypeOptions = "nosniff";
        response.Headers["Referrer-Policy"] = "same-origin";
        response.Headers["Permissions-Policy"] = "geolocation=(), microphone=()";
        response.Headers.CacheControl = "private, no-cache";
    }

    /// <summary>Tells a reader that an address leads nowhere.</summary>
    public Task TellNothingAsync(HttpContext http)
    {
        SetHeaders(http.Response);
        return RefuseAsync(http, StatusCodes.Status404NotFound, PageWriter.ContextOf(http).Words.NothingHere);
    }

    private async Task RunAsync(HttpContext http, Func<HttpContext, Task> handler)
    {
        SetHeaders(http.Response);
        try
        {
            errors.RefuseWhenDraining();
            if (HttpMethods.IsPost(http.Request.Method) && IsForeign(http.Request))
            {
                await RefuseAsync(http, StatusCodes.Status403Forbidden, PageWriter.ContextOf(http).Words.ForeignRequest).ConfigureAwait(false);
                return;
            }

            await handler(http).ConfigureAwait(false);
        }
        catch (Exception e) when (!http.Response.HasStarted)
        {
            await TellAsync(http, e).ConfigureAwait(false);
        }
    }

    private Task TellAsync(HttpContext http, Exception error)
    {
        var context = PageWriter.ContextOf(http);
        var status = errors.StatusOf(error, http.RequestAborted);
        var code = HttpStatus.Of((Code)status.Code);
        if (error is not CoatScanException refusal)
        {
            return RefuseAsync(http, code, context.Words.Fill(context.Words.ServerFault, TraceOf(status)));
        }

        var (text, detail, field) = RefusalText.Of(refusal, context);
        return RefuseAsync(http, code, text, detail, field, detail == refusal.Message ? "en" : context.Words.Language);
    }

    private Task RefuseAsync(HttpContext http, int status, string text, string detail = "", string field = "", string detailLanguage = "en")
    {
        var words = PageWriter.ContextOf(http).Words;
        var title = status == StatusCodes.Status404NotFound ? words.NotFoundTitle : words.ErrorTitle;
        return writer.SendAsync<Views.ErrorView>(
            http,
            title,
            new()
            {
                [nameof(Views.ErrorView.Title)] = title,
                [nameof(Views.ErrorView.Text)] = text,
                [nameof(Views.ErrorView.Detail)] = detail == text ? "" : detail,
                [nameof(Views.ErrorView.DetailLanguage)] = detailLanguage,
                [nameof(Views.ErrorView.Field)] = field,
                [nameof(Views.ErrorView.Back)] = HttpMethods.IsPost(http.Request.Method) ? Sender(http.Request) : "",
            },
            status);
    }

    // The page of ours that a form stands on, as the browser says; what was typed there is still there.
    private static string Sender(HttpRequest request) =>
        Uri.TryCreate(request.Headers.Referer.ToString(), UriKind.Absolute, out var from) && from.Authority == request.Host.Value
            ? from.PathAndQuery
            : "";

    // Browsers say where a form comes from; a form of another site acts with the reader's rights and without his knowledge.
    private static bool IsForeign(HttpRequest request)
    {
        if (request.Headers["Sec-Fetch-Site"].ToString() is { Length: > 0 } site)
        {
            return site is not ("same-origin" or "none");
        }

        return request.Headers.Origin.ToString() is { Length: > 0 } origin
            && !(Uri.TryCreate(origin, UriKind.Absolute, out var from) && from.Authority == request.Host.Value);
    }

    private static string TraceOf(Status status) => status.Details
        .Where(one => one.Is(ErrorInfo.Descriptor))
        .Select(one => one.Unpack<ErrorInfo>().Metadata.TryGetValue("trace_id", out var id) ? id : "none")
        .FirstOrDefault("none");
}
