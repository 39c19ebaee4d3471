using CoatScan.FunctionalTests.Infrastructure;
using Microsoft.Playwright;
using UglyToad.PdfPig;

namespace CoatScan.FunctionalTests.Page;

/// <summary>The journey of an adjuster: several panels of one vehicle.</summary>
[Collection(BrowserTests.Name)]
public sealed class ClaimPageTests(Browser browser, SharedServer shared)
{
    private static CancellationToken Token => TestContext.Current.CancellationToken;

    private Uri Address => shared.Server.Http.BaseAddress!;

    [Fact]
    public async Task Three_panels_of_a_claim_stand_together_worst_first_with_log_questions_and_parties()
    {
        await using var window = await browser.OpenAsync(Address);
        await window.JudgeAsync("left front door", "claim 41-B", "rust-lower-edge");
        await window.JudgeAsync("hood", "claim 41-B", "sound-half-panel");
        await window.JudgeAsync("roof", "claim 41-B", "cracks-old-repaint", "peeling-whole-panel-far");

        await window.Page.GotoAsync("/");
        await window.Page.GetByLabel("Open a claim or vehicle").FillAsync("claim 41-B");
        await window.Page.GetByRole(AriaRole.Button, new() { Name = "Open" }).ClickAsync();

        await Assertions.Expect(window.Page.GetByRole(AriaRole.Heading, new() { Level = 1 })).ToHaveTextAsync("claim 41-B");
        await Assertions.Expect(window.Page.Locator(".lead").First).ToHaveTextAsync("3 panels, 4 photos");
        await Assertions.Expect(window.Page.Locator(".thumbs a")).ToHaveCountAsync(3);
        await Assertions.Expect(window.Page.Locator(".thumbs a").Last).ToContainTextAsync("hood");
        await Assertions.Expect(window.Page.GetByRole(AriaRole.Heading, new() { Name = "Photo log" })).ToBeVisibleAsync();
        await Assertions.Expect(window.Page.GetByRole(AriaRole.Heading, new() { Name = "To ask the policyholder" })).ToBeVisibleAsync();
        await Assertions.Expect(window.Page.GetByRole(AriaRole.Heading, new() { Name = "Who answers, by panel" })).ToBeVisibleAsync();
        await window.CheckAsync("claim");

        var pdf = await shared.Server.Http.GetByteArrayAsync("/claims/sheet?reference=claim%2041-B&as=pdf", Token);
        using var document = PdfDocument.Open(pdf);
        var text = string.Join(' ', document.GetPages().Select(page => page.Text));
        Assert.Contains("Photo log", text, StringComparison.Ordinal);
        Assert.Contains("left front door", text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Answer_replaces_the_panel_in_the_claim()
    {
        await using var window = await browser.OpenAsync(Address);
        await window.JudgeAsync("decklid", "claim 41-C", "rust-lower-edge");
        await window.Page.Locator(".question .answers button").First.ClickAsync();
        await window.ArriveAsync("from=");
        var newest = new Uri(window.Page.Url).AbsolutePath;

        await window.Page.GotoAsync("/claims?reference=claim%2041-C");

        await Assertions.Expect(window.Page.Locator(".thumbs a")).ToHaveCountAsync(1);
        await Assertions.Expect(window.Page.Locator(".thumbs a")).ToHaveAttributeAsync("href", newest);
    }

    [Fact]
    public async Task Picture_that_another_claim_had_is_noted_in_the_log()
    {
        await using var window = await browser.OpenAsync(Address);
        await window.JudgeAsync("roof", "claim 41-D", "waves-in-reflection");
        var earlier = new Uri(window.Page.Url).AbsolutePath.TrimStart('/');
        await window.JudgeAsync("hood", "claim 41-E", "waves-in-reflection");

        await window.Page.GotoAsync("/claims?reference=claim%2041-E");

        await Assertions.Expect(window.Page.Locator(".sheet")).ToContainTextAsync(earlier);
    }

    [Fact]
    public async Task Claim_without_findings_says_so()
    {
        await using var window = await browser.OpenAsync(Address);
        await window.Page.GotoAsync("/claims?reference=nothing%20here");

        await Assertions.Expect(window.Page.Locator(".lead").First).ToHaveTextAsync("There is no finding with the reference nothing here yet.");
        await window.CheckAsync("empty claim");
    }
}
