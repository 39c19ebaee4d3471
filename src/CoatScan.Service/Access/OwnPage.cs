using Microsoft.Net.Http.Headers;

namespace CoatScan.Service.Access;

/// <summary>Whether a call comes from a page of this service, or from no page at all.</summary>
/// <remarks>
/// A browser adds to a call what it knows of the address called, also when a page of another site makes it. What it always
/// says too is from where the call comes.
/// </remarks>
internal static class OwnPage
{
    /// <summary>False for a call that a page of another site made. A link that its reader follows is none: nothing changes by it, and
    /// the other page does not see the answer.</summary>
    public static bool Sent(HttpRequest request) => IsFollowedLink(request) || (IsOwnSite(request) && IsOwnOrigin(request));

    private static bool IsFollowedLink(HttpRequest request) =>
        HttpMethods.IsGet(request.Method)
        && request.Headers["Sec-Fetch-Mode"] == "navigate"
        && request.Headers["Sec-Fetch-Dest"] == "document";

    private static bool IsOwnSite(HttpRequest request) =>
        request.Headers["Sec-Fetch-Site"].ToString() is "" or "same-origin" or "none";

    private static bool IsOwnOrigin(HttpRequest request) =>
        request.Headers[HeaderNames.Origin] is not [{ Length: > 0 } origin]
        || (Uri.TryCreate(origin, UriKind.Absolute, out var page) && page.Authority == request.Host.Value);
}
