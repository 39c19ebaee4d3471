namespace CoatScan.Service.Page;

/// <summary>A page of our own where a browser is led to an address that has none; what programs ask for stays as it is.</summary>
internal sealed class NothingHere(RequestDelegate next, PageGuard guard)
{
    private const string OfPrograms = "/v1";

    /// <summary>Runs the request, and fills in what would be the browser's own error page.</summary>
    public async Task InvokeAsync(HttpContext http)
    {
        await next(http).ConfigureAwait(false);
        if (!http.Response.HasStarted && IsBare(http.Response) && IsBrowser(http.Request))
        {
            await guard.TellNothingAsync(http).ConfigureAwait(false);
        }
    }

    private static bool IsBare(HttpResponse response) =>
        response.StatusCode == StatusCodes.Status404NotFound
        && response.ContentType is null
        && response.ContentLength is null or 0;

    private static bool IsBrowser(HttpRequest request) =>
        !request.Path.StartsWithSegments(OfPrograms, StringComparison.Ordinal)
        && request.Headers.Accept.ToString().Contains("text/html", StringComparison.Ordinal);
}
