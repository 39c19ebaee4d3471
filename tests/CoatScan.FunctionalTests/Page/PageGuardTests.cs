using System.Net;
using System.Text.RegularExpressions;
using CoatScan.FunctionalTests.Infrastructure;
using CoatScan.Service.Page;

namespace CoatScan.FunctionalTests.Page;

/// <summary>What the page forbids to itself and to pages of others.</summary>
[Collection(BrowserTests.Name)]
public sealed class PageGuardTests(SharedServer shared)
{
    private static CancellationToken Token => TestContext.Current.CancellationToken;

    private HttpClient Http => shared.Server.Http;

    [Theory]
    [InlineData("/")]
    [InlineData("/lanes")]
    [InlineData("/claims?reference=views")]
    [InlineData("/findings/nothing")]
    public async Task Page_allows_only_what_is_its_own(string view)
    {
        using var answer = await Http.GetAsync(view, Token);

        Assert.Equal(PageGuard.Policy, Assert.Single(answer.Headers.GetValues("Content-Security-Policy")));
        Assert.DoesNotContain("unsafe", PageGuard.Policy, StringComparison.Ordinal);
        Assert.Equal("nosniff", Assert.Single(answer.Headers.GetValues("X-Content-Type-Options")));
        var html = await answer.Content.ReadAsStringAsync(Token);
        Assert.DoesNotMatch(new Regex("<script(?![^>]*src=)|<style|\\sstyle=|\\son[a-z]+="), html);
    }

    [Fact]
    public async Task Form_of_another_site_is_refused()
    {
        using var request = new HttpRequestMessage(HttpMethod.Post, "/lanes")
        {
            Content = new FormUrlEncodedContent(new Dictionary<string, string> { ["name"] = "x", ["follow"] = "yes" }),
        };
        request.Headers.Add("Origin", "https://elsewhere.example");

        using var answer = await Http.SendAsync(request, Token);

        Assert.Equal(HttpStatusCode.Unauthorized, answer.StatusCode);
        Assert.Contains("from no page of another site", await answer.Content.ReadAsStringAsync(Token), StringComparison.Ordinal);
    }
}
