using System.Globalization;
using CoatScan.FunctionalTests.Infrastructure;
using Microsoft.Playwright;

namespace CoatScan.FunctionalTests.Page;

/// <summary>What holds for every view: it can be reached, read and used, on a desk, on a phone, enlarged, in the dark, in every language.</summary>
[Collection(BrowserTests.Name)]
public sealed class ViewTests(Browser browser, SharedServer shared)
{
    private const int MostBytes = 300 * 1024;
    private const int MostBytesBeforePaint = 50 * 1024;

    private static CancellationToken Token => TestContext.Current.CancellationToken;

    private HttpClient Http => shared.Server.Http;

    // Width, height, pixels for each: a desk, a desk at 200 %, a phone.
    [Theory]
    [InlineData(1440, 900, 1, ColorScheme.Light, "en-US")]
    [InlineData(1440, 900, 1, ColorScheme.Dark, "es-ES")]
    [InlineData(720, 450, 2, ColorScheme.Light, "de-DE")]
    [InlineData(390, 844, 3, ColorScheme.Light, "en-US")]
    [InlineData(390, 844, 3, ColorScheme.Dark, "de-DE")]
    [InlineData(320, 640, 2, ColorScheme.Light, "es-ES")]
    public async Task Every_view_is_accessible_and_fits(int width, int height, float scale, ColorScheme scheme, string language)
    {
        var finding = await PageFinding.MakeAsync(Http, Token);
        await using var window = await browser.OpenAsync(Http.BaseAddress!, new()
        {
            ViewportSize = new() { Width = width, Height = height },
            DeviceScaleFactor = scale,
            ColorScheme = scheme,
            Locale = language,
        });
        foreach (var view in new[] { "/", finding, finding + "?skip=loupe,wash", "/lanes", "/claims?reference=views", "/guide" })
        {
            await window.Page.GotoAsync(view);
            await Assertions.Expect(window.Page.Locator("h1")).ToHaveCountAsync(1);
            Assert.NotEmpty(await window.Page.TitleAsync());
            await window.CheckAsync($"{view} at {width} px");
        }

        // What is folded up must be right too.
        await window.Page.GotoAsync(finding);
        foreach (var summary in await window.Page.Locator("summary").AllAsync())
        {
            await summary.ClickAsync();
        }

        await window.CheckAsync($"unfolded finding at {width} px");
    }

    [Fact]
    public async Task Everything_to_press_is_large_enough_for_a_thumb()
    {
        var finding = await PageFinding.MakeAsync(Http, Token);
        await using var window = await browser.OpenAsync(Http.BaseAddress!, new() { ViewportSize = new() { Width = 390, Height = 844 }, HasTouch = true });
        foreach (var view in new[] { "/", finding, "/lanes" })
        {
            await window.Page.GotoAsync(view);
            var small = await window.Page.EvaluateAsync<string[]>(
                "() => [...document.querySelectorAll('button, select, input:not([type=hidden]):not([type=checkbox]), summary, .layers label, nav a')]"
                + ".filter(one => one.checkVisibility() && one.getBoundingClientRect().height < 43.5).map(one => one.outerHTML.slice(0, 120))");
            Assert.True(small.Length == 0, $"{view}: {string.Join("; ", small)}");
        }
    }

    [Fact]
    public async Task Page_weighs_less_than_300_KB_before_photos_and_loads_nothing_from_elsewhere()
    {
        var finding = await PageFinding.MakeAsync(Http, Token);
        await using var window = await browser.OpenAsync(Http.BaseAddress!);
        foreach (var view in new[] { "/", finding, "/lanes" })
        {
            var responses = new List<IResponse>();
            void Keep(object? sender, IResponse response) => responses.Add(response);
            window.Page.Response += Keep;
            await window.Page.GotoAsync(view, new() { WaitUntil = WaitUntilState.NetworkIdle });
            window.Page.Response -= Keep;
            var foreign = responses.Where(one => !one.Url.StartsWith(Http.BaseAddress!.ToString(), StringComparison.Ordinal)).Select(one => one.Url);
            var bytes = 0;
            foreach (var response in responses.Where(one => !one.Url.EndsWith("/picture", StringComparison.Ordinal)))
            {
                bytes += (await response.BodyAsync()).Length;
            }

            Assert.Empty(foreign);
            Assert.InRange(bytes, 1000, MostBytes);
            TestContext.Current.TestOutputHelper?.WriteLine($"{view}: {bytes / 1024} KB.");
        }
    }

    // How long it takes is printed and not judged: that is the machine's. What it waits for is ours.
    [Theory]
    [InlineData("/")]
    [InlineData("/lanes")]
    public async Task First_paint_waits_for_little(string view)
    {
        await using var window = await browser.OpenAsync(Http.BaseAddress!);
        await window.Page.GotoAsync(view);
        var paint = await window.Page.EvaluateAsync<double>(
            "() => new Promise(told => { const seen = performance.getEntriesByName('first-contentful-paint')[0]; if (seen) told(seen.startTime); "
            + "else new PerformanceObserver(list => told(list.getEntriesByName('first-contentful-paint')[0].startTime)).observe({ type: 'paint', buffered: true }); })");
        var held = await window.Page.EvaluateAsync<string[]>(
            "() => performance.getEntriesByType('resource').filter(one => one.renderBlockingStatus === 'blocking').map(one => one.name + ' ' + one.decodedBodySize)");
        TestContext.Current.TestOutputHelper?.WriteLine($"{view}: first paint after {paint:0} ms, waits for {string.Join(", ", held)}.");

        var (name, bytes) = Assert.Single(held.Select(one => (one.Split(' ')[0], int.Parse(one.Split(' ')[1], CultureInfo.InvariantCulture))));
        Assert.Matches(@"\.css(\?|$)", name);
        Assert.InRange(bytes, 1, MostBytesBeforePaint);
    }

    // The policy of the page forbids it too; nothing is even asked for.
    [Fact]
    public async Task No_view_loads_anything_from_elsewhere()
    {
        var finding = await PageFinding.MakeAsync(Http, Token);
        await using var window = await browser.OpenAsync(Http.BaseAddress!);
        var asked = new List<string>();
        window.Page.Request += (_, request) => asked.Add(request.Url);
        foreach (var view in new[] { "/", finding, finding + "/sheet", finding + "/note", finding + "/job-card", "/lanes", "/claims?reference=views", "/claims/sheet?reference=views", "/guide", "/findings/none" })
        {
            await window.Page.GotoAsync(view);
        }

        Assert.True(asked.Count > 12, $"{asked.Count} requests");
        Assert.All(asked, url => Assert.True(
            url.StartsWith("data:", StringComparison.Ordinal) || new Uri(url).Authority == Http.BaseAddress!.Authority, url));
    }
}
