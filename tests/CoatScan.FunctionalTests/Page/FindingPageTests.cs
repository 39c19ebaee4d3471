using System.Diagnostics;
using System.Net.Http.Headers;
using System.Text.Json;
using System.Text.RegularExpressions;
using CoatScan.FunctionalTests.Infrastructure;
using Microsoft.Playwright;
using UglyToad.PdfPig;

namespace CoatScan.FunctionalTests.Page;

/// <summary>The journey of one panel, in a real browser.</summary>
[Collection(BrowserTests.Name)]
public sealed class FindingPageTests(Browser browser, SharedServer shared)
{
    private static CancellationToken Token => TestContext.Current.CancellationToken;

    private Uri Address => shared.Server.Http.BaseAddress!;

    [Fact]
    public async Task First_finding_takes_two_actions()
    {
        await using var window = await browser.OpenAsync(Address);
        var clock = Stopwatch.StartNew();
        await window.Page.GotoAsync("/");

        await window.Page.GetByLabel("Choose photos").SetInputFilesAsync(Window.Photo("rust-lower-edge"));
        await window.Page.GetByRole(AriaRole.Button, new() { Name = "Judge the panel" }).ClickAsync();
        await window.ArriveAsync("/findings/");

        await Assertions.Expect(window.Page.GetByRole(AriaRole.Heading, new() { Level = 1 })).ToBeVisibleAsync();
        await Assertions.Expect(window.Page.Locator(".photo svg image")).ToBeVisibleAsync();
        TestContext.Current.TestOutputHelper?.WriteLine($"First finding after {clock.Elapsed.TotalSeconds:0.0} s.");
        window.AssertQuiet("finding");
    }

    [Fact]
    public async Task Photo_shows_and_hides_what_was_found_on_it()
    {
        await using var window = await browser.OpenAsync(Address);
        await window.JudgeAsync("door", "", "rust-lower-edge");
        var layer = window.Page.Locator(".layer-0").First;
        await Assertions.Expect(layer).ToBeVisibleAsync();

        var shown = window.Page.GetByRole(AriaRole.Checkbox).First;
        await shown.UncheckAsync();
        await Assertions.Expect(layer).ToBeHiddenAsync();

        await shown.CheckAsync();
        await Assertions.Expect(layer).ToBeVisibleAsync();
        window.AssertQuiet("layers");
    }

    [Fact]
    public async Task Picture_of_the_photo_is_loaded_and_carries_no_metadata()
    {
        await using var window = await browser.OpenAsync(Address);
        await window.JudgeAsync("door", "", "scratches-door-edge");

        var href = await window.Page.Locator(".photo svg image").First.GetAttributeAsync("href");
        var picture = await shared.Server.Http.GetAsync(href, Token);

        Assert.Equal("image/jpeg", picture.Content.Headers.ContentType!.MediaType);
        var bytes = await picture.Content.ReadAsByteArrayAsync(Token);
        Assert.Equal([0xFF, 0xD8], bytes[..2]);
        Assert.True(bytes.AsSpan().IndexOf("Exif"u8) < 0, "The picture carries what the camera wrote.");
    }

    [Fact]
    public async Task Answer_is_kept_changes_the_finding_and_can_be_taken_back()
    {
        await using var window = await browser.OpenAsync(Address);
        await window.JudgeAsync("door", "", "rust-lower-edge");
        var before = window.Page.Url;
        var answer = window.Page.Locator(".question .answers button").First;
        var said = await answer.GetAttributeAsync("value");

        await answer.ClickAsync();
        await window.ArriveAsync("from=");

        Assert.NotEqual(before, window.Page.Url.Split('?')[0]);
        await Assertions.Expect(window.Page.Locator(".said li")).ToHaveCountAsync(1);
        Assert.Contains(said!, await JsonAsync(window.Page.Url), StringComparison.Ordinal);
        await Assertions.Expect(window.Page.Locator($".question button[value='{said}']")).ToHaveCountAsync(0);

        await window.Page.GetByRole(AriaRole.Button, new() { NameRegex = new Regex("^Take back") }).ClickAsync();
        await Assertions.Expect(window.Page.Locator(".said li")).ToHaveCountAsync(0);
        Assert.DoesNotContain(said!, await JsonAsync(window.Page.Url), StringComparison.Ordinal);
        window.AssertQuiet("answers");
    }

    [Fact]
    public async Task Answer_gives_the_finding_that_the_api_gives()
    {
        await using var window = await browser.OpenAsync(Address);
        await window.JudgeAsync("door", "", "stone-chips-near");
        var answer = window.Page.Locator(".question .answers button").First;
        var said = await answer.GetAttributeAsync("value");
        await answer.ClickAsync();
        await window.ArriveAsync("from=");
        var page = JsonDocument.Parse(await JsonAsync(window.Page.Url)).RootElement;

        var sha256 = page.GetProperty("photos")[0].GetProperty("sha256").GetString();
        var request = $$$"""{"photo":{"photo":"photos/{{{sha256}}}"},"facts":{"panel":"door","evidence":["{{{said}}}"]}}""";
        using var response = await shared.Server.Http.PostAsync(
            "/v1/findings:analyze", new StringContent(request, MediaTypeHeaderValue.Parse("application/json")), Token);
        var api = JsonDocument.Parse(await response.Content.ReadAsStringAsync(Token)).RootElement;

        foreach (var part in new[] { "verdict", "conditions", "causes", "visualClasses", "measurements", "ratings", "nextTests", "remedy" })
        {
            Assert.Equal(api.GetProperty(part).GetRawText(), page.GetProperty(part).GetRawText());
        }
    }

    [Fact]
    public async Task Question_put_aside_makes_room_and_the_back_button_brings_it_again()
    {
        await using var window = await browser.OpenAsync(Address);
        await window.JudgeAsync("door", "", "rust-lower-edge");
        var first = await window.Page.Locator(".question h3").First.InnerTextAsync();

        await window.Page.Locator(".question").First.Locator("button[name=aside]").ClickAsync();
        await window.ArriveAsync("skip=");
        await Assertions.Expect(window.Page.Locator(".question h3").First).Not.ToHaveTextAsync(first);

        await window.Page.GoBackAsync();
        await Assertions.Expect(window.Page.Locator(".question h3").First).ToHaveTextAsync(first);

        // Shown again as it was left, it must be ready for an answer.
        await Assertions.Expect(window.Page.Locator(".question button").First).ToBeEnabledAsync();
    }

    [Fact]
    public async Task Painter_adds_readings_and_what_was_seen_and_they_are_in_the_finding()
    {
        await using var window = await browser.OpenAsync(Address);
        await window.JudgeAsync("hood", "", "cracks-old-repaint");
        await window.Page.GetByText("Add what you saw or measured").ClickAsync();
        await window.Page.GetByLabel("Film thickness readings, µm").Last.FillAsync("310, 345, 298");
        await window.Page.GetByLabel("Something you saw, did or know").SelectOptionAsync("form.crack_network");
        await window.Page.GetByLabel("Said by (optional)").FillAsync("painter");
        await window.Page.GetByRole(AriaRole.Button, new() { Name = "Add and judge again" }).Last.ClickAsync();
        await window.ArriveAsync("from=");

        await Assertions.Expect(window.Page.Locator(".said")).ToContainTextAsync("310; 345; 298");
        await Assertions.Expect(window.Page.Locator(".said")).ToContainTextAsync("(painter)");
        await Assertions.Expect(window.Page.Locator("#measured")).ToContainTextAsync("298 / 310 / 345");
    }

    [Fact]
    public async Task Further_photo_joins_the_same_finding()
    {
        await using var window = await browser.OpenAsync(Address);
        await window.JudgeAsync("door", "", "blisters-near");
        var before = new Uri(window.Page.Url).AbsolutePath.TrimStart('/');
        await window.Page.GetByText("Add a photo of this panel").ClickAsync();
        await window.Page.Locator("#more").SetInputFilesAsync(Window.Photo("sound-half-panel"));
        await window.Page.GetByRole(AriaRole.Button, new() { Name = "Add and judge again" }).First.ClickAsync();
        await window.ArriveAsync("from=");

        await Assertions.Expect(window.Page.Locator("figure.photo")).ToHaveCountAsync(2);
        await Assertions.Expect(window.Page.Locator(".sheet").Last).ToContainTextAsync("sound-half-panel.jpg");

        // That the first photo was in the finding before this one is no news.
        Assert.DoesNotContain(before, await JsonAsync(window.Page.Url), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Papers_of_a_finding_are_pages_to_print_and_pdf()
    {
        await using var window = await browser.OpenAsync(Address);
        await window.JudgeAsync("left rear door", "job 12", "rust-lower-edge");
        var id = window.Page.Url.Split('?')[0];
        foreach (var (paper, words) in new[] { ("sheet", "left rear door"), ("note", "left rear door"), ("job-card", "left rear door") })
        {
            await window.Page.GotoAsync($"{id}/{paper}");
            await Assertions.Expect(window.Page.Locator("main")).ToContainTextAsync(words);
            await window.CheckAsync(paper);

            var pdf = await shared.Server.Http.GetByteArrayAsync($"{id}/{paper}?as=pdf&paper=letter", Token);
            using var document = PdfDocument.Open(pdf);
            Assert.Contains(words, string.Join(' ', document.GetPages().Select(page => page.Text)), StringComparison.Ordinal);
            Assert.Equal(612, document.GetPage(1).Width, 1.0);
            Assert.InRange(document.NumberOfPages, 1, 2);
        }
    }

    [Fact]
    public async Task Journey_works_without_script()
    {
        await using var window = await browser.OpenAsync(Address, new() { JavaScriptEnabled = false });
        await window.JudgeAsync("door", "", "rust-lower-edge");
        await window.Page.Locator(".question .answers button").First.ClickAsync();
        await window.ArriveAsync("from=");
        await Assertions.Expect(window.Page.Locator(".said li")).ToHaveCountAsync(1);

        await window.Page.Locator("#language").SelectOptionAsync("de");
        await window.Page.GetByRole(AriaRole.Button, new() { Name = "Use this language" }).ClickAsync();
        await Assertions.Expect(window.Page.Locator("html")).ToHaveAttributeAsync("lang", "de");
        await Assertions.Expect(window.Page.Locator(".said li")).ToHaveCountAsync(1);
    }

    // Every question can be put aside, also the one whose answers do not fit; that says nothing about the panel.
    [Theory]
    [InlineData("rust-lower-edge")]
    [InlineData("blisters-near")]
    public async Task Question_that_cannot_be_answered_goes_away_and_is_no_evidence(string photo)
    {
        await using var window = await browser.OpenAsync(Address);
        await window.JudgeAsync("door", "", photo);
        using var before = JsonDocument.Parse(await JsonAsync(window.Page.Url));
        var seen = new HashSet<string>();
        while (await window.Page.Locator(".question").CountAsync() > 0)
        {
            foreach (var question in await window.Page.Locator(".question").AllAsync())
            {
                var isChoice = await question.Locator("[name=answer]").CountAsync() > 0;
                await Assertions.Expect(question.Locator("button[name=aside]")).ToHaveTextAsync(
                    isChoice ? "None of these, or I cannot tell" : "Do not know, or cannot do it now");
            }

            var aside = window.Page.Locator("button[name=aside]").First;
            var test = await aside.GetAttributeAsync("value");
            Assert.True(seen.Add(test!), $"{test} came back.");
            await aside.ClickAsync();
            await Assertions.Expect(window.Page.Locator($"button[value={test}]")).ToHaveCountAsync(0);
        }

        Assert.NotEmpty(seen);
        using var after = JsonDocument.Parse(await JsonAsync(window.Page.Url));
        Assert.Equal(before.RootElement.GetRawText(), after.RootElement.GetRawText());
        window.AssertQuiet("aside");
    }

    [Fact]
    public async Task Journey_works_by_keyboard_alone()
    {
        await using var window = await browser.OpenAsync(Address);
        await window.Page.GotoAsync("/");
        await window.Page.Keyboard.PressAsync("Tab");
        Assert.Equal("Skip to the content", await FocusedTextAsync(window.Page));
        await window.Page.Keyboard.PressAsync("Enter");
        await window.Page.Keyboard.PressAsync("Tab");
        Assert.Equal("photos", await window.Page.EvaluateAsync<string>("() => document.activeElement.id"));

        // The file dialog is the system's; what it gives is set here, everything else is pressed.
        await window.Page.Locator("#photos").SetInputFilesAsync(Window.Photo("rust-lower-edge"));
        await TabToAsync(window.Page, "Judge the panel");
        await window.Page.Keyboard.PressAsync("Enter");
        await window.ArriveAsync("/findings/");

        await window.Page.Keyboard.PressAsync("Tab");
        var answer = await window.Page.Locator(".question .answers button").First.InnerTextAsync();
        await TabToAsync(window.Page, answer);
        var outline = await window.Page.EvaluateAsync<string>("() => getComputedStyle(document.activeElement).outlineWidth");
        Assert.Equal("3px", outline);
        await window.Page.Keyboard.PressAsync("Enter");
        await window.ArriveAsync("from=");
        await Assertions.Expect(window.Page.Locator(".said li")).ToHaveCountAsync(1);
    }

    [Fact]
    public async Task File_that_is_no_photo_is_named_and_the_others_can_go_on()
    {
        await using var window = await browser.OpenAsync(Address);
        await window.Page.GotoAsync("/");
        await window.Page.GetByLabel("Choose photos").SetInputFilesAsync(
        [
            new FilePayload { Name = "notes.jpg", MimeType = "image/jpeg", Buffer = "no photo"u8.ToArray() },
            new FilePayload { Name = "door.jpg", MimeType = "image/jpeg", Buffer = await File.ReadAllBytesAsync(Window.Photo("blisters-near"), Token) },
        ]);
        await window.Page.GetByRole(AriaRole.Button, new() { Name = "Judge the panel" }).ClickAsync();

        await Assertions.Expect(window.Page.Locator("main")).ToContainTextAsync("notes.jpg");
        await window.Page.GetByRole(AriaRole.Button, new() { Name = "Go on with 1 photo" }).ClickAsync();
        await window.ArriveAsync("/findings/");
        await Assertions.Expect(window.Page.Locator("figure.photo")).ToHaveCountAsync(1);
    }

    [Fact]
    public async Task Camera_of_a_phone_is_offered()
    {
        await using var window = await browser.OpenAsync(Address);
        await window.Page.GotoAsync("/");

        await Assertions.Expect(window.Page.GetByLabel("Take a photo")).ToHaveAttributeAsync("capture", "environment");
    }

    private static Task<string> FocusedTextAsync(IPage page) => page.EvaluateAsync<string>("() => document.activeElement.innerText.trim()");

    private static async Task TabToAsync(IPage page, string text)
    {
        for (var presses = 0; presses < 60; presses++)
        {
            if (await FocusedTextAsync(page) == text)
            {
                return;
            }

            await page.Keyboard.PressAsync("Tab");
        }

        Assert.Fail($"The keyboard does not come to '{text}'.");
    }

    private Task<string> JsonAsync(string url) =>
        shared.Server.Http.GetStringAsync("/v1" + new Uri(url).AbsolutePath, Token);
}
