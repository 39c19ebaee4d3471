using CoatScan.Reports;
using CoatScan.Service.Page.Words;

namespace CoatScan.Service.Page;

/// <summary>The language of a reader: the one that was chosen, else the first of the browser's that the page speaks.</summary>
internal static class PageLanguage
{
    /// <summary>Cookie that keeps the choice.</summary>
    public const string Cookie = "language";

    private static readonly TimeSpan Kept = TimeSpan.FromDays(365);

    /// <summary>The words for a request.</summary>
    public static PageWords Of(HttpRequest request)
    {
        if (PageWords.Of(request.Cookies[Cookie] ?? "") is { } chosen)
        {
            return chosen;
        }

        return request.GetTypedHeaders().AcceptLanguage
            .OrderByDescending(one => one.Quality ?? 1)
            .Select(one => PageWords.Of(one.Value.ToString().Split('-')[0].ToLowerInvariant()))
            .FirstOrDefault(one => one is not null) ?? PageWords.All[0];
    }

    /// <summary>The paper that readers of a request have: US Letter where English is that of a country that uses it.</summary>
    public static Paper PaperOf(HttpRequest request) => request.GetTypedHeaders().AcceptLanguage
        .OrderByDescending(one => one.Quality ?? 1)
        .Select(one => one.Value.ToString())
        .FirstOrDefault() is { } first
        && (first.EndsWith("-US", StringComparison.OrdinalIgnoreCase) || first.EndsWith("-CA", StringComparison.OrdinalIgnoreCase))
            ? Paper.Letter
            : Paper.A4;

    /// <summary>Keeps a choice.</summary>
    public static void Keep(HttpResponse response, PageWords words) => response.Cookies.Append(Cookie, words.Language, new CookieOptions
    {
        HttpOnly = true,
        SameSite = SameSiteMode.Lax,
        MaxAge = Kept,
        Path = "/",
        IsEssential = true,
    });
}
