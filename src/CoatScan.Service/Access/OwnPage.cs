using Microsoft.Net.Http.Headers;

namespace CoatScan.Service.Access;

/// <summary>Whether a call comes from a page of this service, or from no page at all.</summary>
/// <remarks>
/// A browser adds to a call what it knows of the address called, also when a page of another site makes it. What it always
/// says too is from where the call comes.
/// </remarks>
internal static class OwnPage
{
    private const string FetchSite = "Sec-Fetch-Site";

    /// <summary>False for a call that a page of another site made.</summary>
    public static bool Sent(HttpRequest request) =>
        request.Headers[FetchSite].ToString() is "" or "same-origin" or "none"
        && (request.Headers[HeaderNames.Origin] is not [{ Length: > 0 } origin]
            || (Uri.TryCreate(origin, UriKind.Absolute, out var page) && page.Authority == request.Host.Value));
}
