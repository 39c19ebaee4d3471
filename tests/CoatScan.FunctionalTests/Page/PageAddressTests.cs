using System.Net;
using CoatScan.FunctionalTests.Infrastructure;
using CoatScan.Service.Page;
using Microsoft.Playwright;

namespace CoatScan.FunctionalTests.Page;

/// <summary>Addresses that lead nowhere say so: to people in a page that leads on, to programs as always.</summary>
[Collection(BrowserTests.Name)]
public sealed class PageAddressTests(Browser browser, SharedServer shared)
{
    private static CancellationToken Token => TestContext.Current.CancellationToken;

    private HttpClient Http => shared.Server.Http;

    [Theory]
    [InlineData("/findings/nothing", HttpStatusCode.NotFound)]
    [InlineData("/findings/!", HttpStatusCode.BadRequest)]
    [InlineData("/lanes/nothing", HttpStatusCode.NotFound)]
    [InlineData("/lanes/nothing/vehicle?name=x", HttpStatusCode.NotFound)]
    [InlineData("/claims", HttpStatusCode.BadRequest)]
    [InlineData("/photos/00/picture", HttpStatusCode.BadRequest)]
    public async Task Address_that_leads_nowhere_says_so_in_a_page(string view, HttpStatusCode status)
    {
        using var answer = await Http.GetAsync(view, Token);

        Assert.Equal(status, answer.StatusCode);
        Assert.Equal("text/html", answer.Content.Headers.ContentType!.MediaType);
        Assert.Contains("<h1>", await answer.Content.ReadAsStringAsync(Token), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("/nowhere", "en-US", HttpStatusCode.NotFound, "There is nothing here")]
    [InlineData("/nowhere/at/all.html", "de-DE", HttpStatusCode.NotFound, "Hier ist nichts")]
    [InlineData("/lanes/x/photos", "es-ES", HttpStatusCode.NotFound, "Aquí no hay nada")]
    [InlineData("/findings/nothing", "de-DE", HttpStatusCode.NotFound, "Hier ist nichts")]
    [InlineData("/lanes/nothing", "es-ES", HttpStatusCode.NotFound, "Aquí no hay nada")]
    [InlineData("/lanes/nothing/findings.ndjson", "en-US", HttpStatusCode.NotFound, "There is nothing here")]
    [InlineData("/claims/sheet?reference=nobody", "de-DE", HttpStatusCode.NotFound, "Hier ist nichts")]
    public async Task Browser_is_told_in_a_page_of_ours_that_nothing_is_there_and_led_back(
        string address, string language, HttpStatusCode status, string title)
    {
        await using var window = await browser.OpenAsync(Http.BaseAddress!, new() { Locale = language });

        var answer = await window.Page.GotoAsync(address);

        Assert.Equal((int)status, answer!.Status);
        await Assertions.Expect(window.Page.Locator("h1")).ToHaveTextAsync(title);
        Assert.Equal(language[..2], await window.Page.Locator("html").GetAttributeAsync("lang"));
        Assert.Equal(PageGuard.Policy, answer.Headers["content-security-policy"]);

        // The console names the answer's status, which is right, and nothing else.
        window.ForgiveErrors();
        await window.CheckAsync(address);
        await window.Page.Locator("main a.button").ClickAsync();
        await Assertions.Expect(window.Page.Locator("#photos")).ToBeVisibleAsync();
    }

    [Fact]
    public async Task Address_of_a_form_leads_to_where_the_form_stands()
    {
        using var handler = new HttpClientHandler { AllowAutoRedirect = false };
        using var http = new HttpClient(handler) { BaseAddress = Http.BaseAddress };
        using var made = await http.PostAsync("/lanes", new FormUrlEncodedContent([new("name", ""), new("follow", "yes")]), Token);
        var lane = made.Headers.Location!.ToString();
        (string Address, string Form)[] forms =
            [("/findings", "/"), ("/language", "/"), .. new[] { "photos", "start", "cancel", "retry" }.Select(action => ($"{lane}/{action}", lane))];

        foreach (var (address, form) in forms)
        {
            using var answer = await http.GetAsync(address, Token);
            Assert.Equal(HttpStatusCode.SeeOther, answer.StatusCode);
            Assert.Equal(form, answer.Headers.Location!.ToString());
        }

        // A lane that nobody named is called by its time, not by its id.
        Assert.Matches("<h1>Lane of 20[0-9-]{8} [0-9]{2}:[0-9]{2} UTC</h1>", await http.GetStringAsync(lane, Token));
    }

    [Fact]
    public async Task Finding_that_was_deleted_is_told_in_a_page_of_ours()
    {
        var finding = await PageFinding.MakeAsync(Http, Token);
        using var deleted = await Http.DeleteAsync("/v1" + finding, Token);
        Assert.Equal(HttpStatusCode.OK, deleted.StatusCode);

        using var answer = await Http.GetAsync(finding, Token);

        Assert.Equal(HttpStatusCode.NotFound, answer.StatusCode);
        Assert.Contains("It may have been deleted", await answer.Content.ReadAsStringAsync(Token), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("/v1/findings/nothing", "application/json")]
    [InlineData("/v1/nothing", null)]
    public async Task Program_gets_no_page_even_when_it_would_take_one(string address, string? mediaType)
    {
        using var request = new HttpRequestMessage(HttpMethod.Get, address);
        request.Headers.TryAddWithoutValidation("Accept", "text/html");

        using var answer = await Http.SendAsync(request, Token);

        Assert.Equal(HttpStatusCode.NotFound, answer.StatusCode);
        Assert.Equal(mediaType, answer.Content.Headers.ContentType?.MediaType);
    }

    [Fact]
    public async Task Program_that_asks_for_no_page_gets_a_bare_404()
    {
        using var answer = await Http.GetAsync("/nowhere", Token);

        Assert.Equal(HttpStatusCode.NotFound, answer.StatusCode);
        Assert.Empty(await answer.Content.ReadAsStringAsync(Token));
    }
}
