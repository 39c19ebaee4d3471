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
        services.AddSingleton<LaneFiles>();
        services.AddSingleton<ClaimPages>();
        return services;
    }

    /// <summary>Maps the page: who may read sees it, who may write sends its forms.</summary>
    public static RouteGroupBuilder MapPage(this WebApplication application)
    {
        var guard = application.Services.GetRequiredService<PageGuard>();
        var group = application.MapGroup("");
        Get("/", To<FindingPages>((pages, http) => pages.HomeAsync(http)));
        Post("/findings", To<FindingPages>((pages, http) => pages.CreateAsync(http)));
        Get("/findings/{id}", To<FindingPages>((pages, http) => pages.ShowAsync(http)));
        Post("/findings/{id}", To<FindingPages>((pages, http) => pages.AnswerAsync(http)));
        Get("/findings/{id}/sheet", To<FindingPages>((pages, http) => pages.PrintAsync(http, FindingPaper.Sheet)));
        Get("/findings/{id}/note", To<FindingPages>((pages, http) => pages.PrintAsync(http, FindingPaper.Note)));
        Get("/findings/{id}/job-card", To<FindingPages>((pages, http) => pages.PrintAsync(http, FindingPaper.JobCard)));
        Get("/photos/{sha256}/picture", To<PhotoPictures>((pictures, http) => pictures.SendAsync(http)));
        Get(Guide, http => SheetAnswer.SendAsync(http, PhotoGuide.Of(PageWriter.ContextOf(http).Sheets), DateTimeOffset.UnixEpoch));
        Get("/claims", To<ClaimPages>((pages, http) => pages.ShowAsync(http)));
        Get("/claims/sheet", To<ClaimPages>((pages, http) => pages.PrintAsync(http)));
        Get("/lanes", To<LanePages>((pages, http) => pages.ListAsync(http)));
        Post("/lanes", To<LanePages>((pages, http) => pages.CreateAsync(http)));
        Get("/lanes/{id}", To<LanePages>((pages, http) => pages.ShowAsync(http)));
        Post("/lanes/{id}/photos", To<LanePages>((pages, http) => pages.AddAsync(http)));
        Post("/lanes/{id}/start", To<LanePages>((pages, http) => pages.StartAsync(http)));
        Post("/lanes/{id}/cancel", To<LanePages>((pages, http) => pages.CancelAsync(http)));
        Post("/lanes/{id}/retry", To<LanePages>((pages, http) => pages.RetryAsync(http)));
        Get("/lanes/{id}/findings.csv", To<LaneFiles>((files, http) => files.TableAsync(http)));
        Get("/lanes/{id}/findings.ndjson", To<LaneFiles>((files, http) => files.LinesAsync(http)));
        Get("/lanes/{id}/summary", To<LaneFiles>((files, http) => files.PrintAsync(http)));
        Get("/lanes/{id}/vehicle", To<ClaimPages>((pages, http) => pages.ShowVehicleAsync(http)));
        Get("/lanes/{id}/vehicle/sheet", To<ClaimPages>((pages, http) => pages.PrintVehicleAsync(http)));

        // A refused form leaves its own address in the browser; opened again, it leads to where the form stands.
        Get("/findings", LeadHome);
        Get("/language", LeadHome);
        foreach (var action in new[] { "photos", "start", "cancel", "retry" })
        {
            Get("/lanes/{id}/" + action, To<LanePages>((pages, http) => pages.LeadBackAsync(http)));
        }

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

    // Asked for call by call: mapping runs before the start's own check, which is to say what is wrong with model or store.
    private static Func<HttpContext, Task> To<T>(Func<T, HttpContext, Task> handle)
        where T : notnull =>
        http => handle(http.RequestServices.GetRequiredService<T>(), http);

    private static Task LeadHome(HttpContext http)
    {
        http.Response.StatusCode = StatusCodes.Status303SeeOther;
        http.Response.Headers.Location = "/";
        return Task.CompletedTask;
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
