using CoatScan.Findings;
using CoatScan.Reports;
using CoatScan.Service.Access;
using CoatScan.Service.Page.Words;

namespace CoatScan.Service.Page;

/// <summary>Every address of the page, in one place.</summary>
internal static class PageRoutes
{
    /// <summary>Address of the photo guide.</summary>
    public const string Guide = "/guide";

    /// <summary>Address of the picture of a photo.</summary>
    public static string Picture(string sha256) => $"/photos/{sha256}/picture";

    public static IServiceCollection AddPage(this IServiceCollection services)
    {
        services.AddSingleton<PageWriter>();
        services.AddSingleton<PageGuard>();
        services.AddSingleton<Questions>();
        services.AddSingleton<FactsChange>();
        services.AddSingleton<PanelJudge>();
        services.AddSingleton<PhotoPictures>();
        services.AddSingleton<FindingPages>();
        services.AddSingleton<LanePages>();
        services.AddSingleton<ClaimPages>();
        return services;
    }

    /// <summary>Maps the page: who may read sees it, who may write sends its forms.</summary>
    public static RouteGroupBuilder MapPage(this WebApplication application)
    {
        var services = application.Services;
        var guard = services.GetRequiredService<PageGuard>();
        var findings = services.GetRequiredService<FindingPages>();
        var lanes = services.GetRequiredService<LanePages>();
        var claims = services.GetRequiredService<ClaimPages>();
        var group = application.MapGroup("");
        Get("/", findings.HomeAsync);
        Post("/findings", findings.CreateAsync);
        Get("/findings/{id}", findings.ShowAsync);
        Post("/findings/{id}", findings.AnswerAsync);
        Get("/findings/{id}/sheet", http => findings.PrintAsync(http, FindingPaper.Sheet));
        Get("/findings/{id}/note", http => findings.PrintAsync(http, FindingPaper.Note));
        Get("/findings/{id}/job-card", http => findings.PrintAsync(http, FindingPaper.JobCard));
        Get("/photos/{sha256}/picture", services.GetRequiredService<PhotoPictures>().SendAsync);
        Get(Guide, http => SheetAnswer.SendAsync(http, PhotoGuide.Of(PageWriter.ContextOf(http).Sheets), DateTimeOffset.UnixEpoch));
        Get("/claims", claims.ShowAsync);
        Get("/claims/sheet", claims.PrintAsync);
        Get("/lanes", lanes.ListAsync);
        Post("/lanes", lanes.CreateAsync);
        Get("/lanes/{id}", lanes.ShowAsync);
        Post("/lanes/{id}/photos", lanes.AddAsync);
        Post("/lanes/{id}/start", lanes.StartAsync);
        Post("/lanes/{id}/cancel", lanes.CancelAsync);
        Post("/lanes/{id}/retry", lanes.RetryAsync);
        Get("/lanes/{id}/findings.csv", lanes.TableAsync);
        Get("/lanes/{id}/vehicle", claims.ShowVehicleAsync);
        Get("/lanes/{id}/vehicle/sheet", claims.PrintVehicleAsync);
        group.MapPost("/language", guard.Around(ChooseLanguageAsync)).ExcludeFromDescription().RequireAccess(AccessScope.Read);
        foreach (var asset in PageAsset.All)
        {
            group.MapGet(asset.Href, http => SendAsync(http, asset)).ExcludeFromDescription().RequireAccess(AccessScope.Read);
        }

        return group;

        void Get(string pattern, Func<HttpContext, Task> handler) =>
            group.MapGet(pattern, guard.Around(handler)).ExcludeFromDescription().RequireAccess(AccessScope.Read);

        void Post(string pattern, Func<HttpContext, Task> handler) =>
            group.MapPost(pattern, guard.Around(handler)).ExcludeFromDescription().RequireAccess(AccessScope.Write);
    }

    private static Task SendAsync(HttpContext http, PageAsset asset)
    {
        PageGuard.SetHeaders(http.Response);
        http.Response.Headers.CacheControl = "public, max-age=31536000, immutable";
        http.Response.ContentType = asset.MediaType;
        http.Response.ContentLength = asset.Content.Length;
        return http.Response.Body.WriteAsync(asset.Content, http.RequestAborted).AsTask();
    }

    private static async Task ChooseLanguageAsync(HttpContext http)
    {
        var form = await http.Request.ReadFormAsync(http.RequestAborted).ConfigureAwait(false);
        if (PageWords.Of(form["language"].ToString()) is { } words)
        {
            PageLanguage.Keep(http.Response, words);
        }

        // Only a path of ours: an address of elsewhere would send the reader there in our name.
        var back = form["back"].ToString();
        http.Response.StatusCode = StatusCodes.Status303SeeOther;
        http.Response.Headers.Location = back.StartsWith('/') && !back.StartsWith("//", StringComparison.Ordinal) && !back.Contains('\\', StringComparison.Ordinal)
            ? back
            : "/";
    }
}
