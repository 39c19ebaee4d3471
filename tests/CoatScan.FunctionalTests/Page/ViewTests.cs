using System.Net;
using System.Text.Json;
using System.Text.RegularExpressions;
using CoatScan.Findings;
using CoatScan.FunctionalTests.Infrastructure;
using CoatScan.Reports;
using CoatScan.Service.Page;
using CoatScan.Service.Page.Words;
using Microsoft.Playwright;

namespace CoatScan.FunctionalTests.Page;

/// <summary>What holds for every view: it can be reached, read and used, on a desk, on a phone, enlarged, in the dark, in every language.</summary>
[Collection(BrowserTests.Name)]
public sealed partial class ViewTests(Browser browser, SharedServer shared)
{
    private const int MostBytes = 300 * 1024;

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
        var finding = await FindingAsync();
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

    [Theory]
    [InlineData("de-DE", @"[0-9]{2}\.[0-9]{2}\.20[0-9]{2} [0-9]{2}:[0-9]{2} UTC")]
    [InlineData("es-ES", "[0-9]{2}/[0-9]{2}/20[0-9]{2} [0-9]{2}:[0-9]{2} UTC")]
    public async Task Numbers_and_days_are_those_of_the_language_of_the_page(string language, string day)
    {
        var finding = await FindingAsync();
        await using var window = await browser.OpenAsync(Http.BaseAddress!, new() { Locale = language });
        await window.Page.GotoAsync("/");
        var home = await window.Page.Locator("main").InnerTextAsync();
        await window.Page.GotoAsync(finding);
        var text = string.Join('\n', await window.Page.Locator(".verdict, .sure, .ask, #do, #evidence, #measured, #who").AllInnerTextsAsync());

        Assert.Matches(day, home);
        Assert.Matches("[0-9],[0-9]", text);
        Assert.DoesNotMatch(@"(?<![0-9.])[0-9]+\.[0-9]+(?![0-9.])", text);
    }

    [Fact]
    public async Task Everything_to_press_is_large_enough_for_a_thumb()
    {
        var finding = await FindingAsync();
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
        var finding = await FindingAsync();
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

    [Fact]
    public async Task First_paint_comes_within_a_second()
    {
        await using var window = await browser.OpenAsync(Http.BaseAddress!);
        await window.Page.GotoAsync("/");
        await window.Page.GotoAsync("/lanes");
        var paint = await window.Page.EvaluateAsync<double>(
            "() => new Promise(told => { const seen = performance.getEntriesByName('first-contentful-paint')[0]; if (seen) told(seen.startTime); "
            + "else new PerformanceObserver(list => told(list.getEntriesByName('first-contentful-paint')[0].startTime)).observe({ type: 'paint', buffered: true }); })");
        Assert.InRange(paint, 1, 1000);
        TestContext.Current.TestOutputHelper?.WriteLine($"First paint after {paint:0} ms.");
    }

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

    [Theory]
    [InlineData("//elsewhere.example/")]
    [InlineData("https://elsewhere.example/")]
    [InlineData("/\\elsewhere.example")]
    public async Task Choice_of_a_language_leads_nowhere_else(string back)
    {
        using var handler = new HttpClientHandler { AllowAutoRedirect = false };
        using var http = new HttpClient(handler) { BaseAddress = Http.BaseAddress };

        using var answer = await http.PostAsync(
            "/language", new FormUrlEncodedContent(new Dictionary<string, string> { ["language"] = "de", ["back"] = back }), Token);

        Assert.Equal("/", answer.Headers.Location!.ToString());
        Assert.Contains("language=de", Assert.Single(answer.Headers.GetValues("Set-Cookie")), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("de-AT,en;q=0.5", "de")]
    [InlineData("fr,es;q=0.8,en;q=0.7", "es")]
    [InlineData("fr", "en")]
    [InlineData("", "en")]
    public async Task Language_is_the_first_of_the_browser_that_the_page_speaks(string accepted, string spoken)
    {
        using var request = new HttpRequestMessage(HttpMethod.Get, "/");
        request.Headers.TryAddWithoutValidation("Accept-Language", accepted);

        using var answer = await Http.SendAsync(request, Token);

        Assert.Contains($"<html lang=\"{spoken}\">", await answer.Content.ReadAsStringAsync(Token), StringComparison.Ordinal);
    }

    [Fact]
    public void Every_language_has_every_text_with_the_same_blanks()
    {
        var texts = PageWords.All.ToDictionary(words => words.Language, words => words.Texts());
        var english = texts["en"];
        Assert.NotEmpty(english);
        foreach (var (language, own) in texts)
        {
            Assert.Equal(english.Keys.Order(), own.Keys.Order());
            foreach (var (key, text) in own)
            {
                Assert.True(Blanks(text).SequenceEqual(Blanks(english[key])), $"{language} {key}: {text}");
                Assert.True(text.Length > 0, $"{language} {key} is empty.");
            }
        }

        static IEnumerable<string> Blanks(string text) => Regex.Matches(text, "\\{\\d\\}").Select(blank => blank.Value).Order();
    }

    // The policy of the page forbids it too; nothing is even asked for.
    [Fact]
    public async Task No_view_loads_anything_from_elsewhere()
    {
        var finding = await FindingAsync();
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

    [Theory]
    [InlineData("en", "film", "118,5 120,2", "“118,5” can be read in more than one way", "Film thickness readings, µm")]
    [InlineData("de", "film", "118,125", "„118,125“ lässt sich auf mehr als eine Weise lesen", "Schichtdicken, µm")]
    [InlineData("es", "film", "1.250", "«1.250» se puede leer de más de una manera", "Espesores de película, µm")]
    [InlineData("de", "gloss", "viel", "„viel“ ist keine Zahl", "Glanz bei 60 Grad, GE")]
    [InlineData("en", "film", "118 20000", "“Film thickness readings, µm” is 20000; it must be above 0 and at most 10000 micrometers.", "")]
    [InlineData("de", "film", "118 20000", "„Schichtdicken, µm“ ist 20000; erlaubt ist: über 0 und höchstens 10000 Mikrometer.", "")]
    [InlineData("es", "gloss", "300", "«Brillo a 60 grados, UB» es 300; se admite: de 0 a 200 unidades de brillo a 60 grados.", "")]
    [InlineData("de", "deltaE", "300", "„Farbabstand zum Nachbarteil, CIEDE2000“ ist 300; erlaubt ist: 0 bis 100.", "")]
    [InlineData("es", "scale", "30", "«Escala, milímetros por píxel» es 30; se admite: más de 0 y como máximo 10 milímetros por píxel.", "")]
    [InlineData("de", "applied", "gestern", "„gestern“ ist kein Tag", "Tag der Lackierung")]
    public async Task Field_that_cannot_be_read_is_named_in_the_language_of_the_reader(
        string language, string field, string typed, string sentence, string label)
    {
        var finding = await FindingAsync();
        using var request = new HttpRequestMessage(HttpMethod.Post, finding)
        {
            Content = new FormUrlEncodedContent([new(field, typed)]),
        };
        request.Headers.Referrer = new Uri(Http.BaseAddress!, finding + "?skip=wash");
        request.Headers.TryAddWithoutValidation("Accept-Language", language);

        using var answer = await Http.SendAsync(request, Token);

        Assert.Equal(HttpStatusCode.BadRequest, answer.StatusCode);
        var text = WebUtility.HtmlDecode(await answer.Content.ReadAsStringAsync(Token));
        Assert.Contains(sentence, text, StringComparison.Ordinal);
        Assert.Contains(label, text, StringComparison.Ordinal);
        Assert.DoesNotContain("readings.", text, StringComparison.Ordinal);
        Assert.Contains($"href=\"{finding}?skip=wash\"", text, StringComparison.Ordinal);
        Assert.DoesNotContain("<p lang=\"en\">", text, StringComparison.Ordinal);
    }

    // Whatever the page's forms can be refused for has words of its own, in every language.
    [Theory]
    [InlineData("en")]
    [InlineData("de")]
    [InlineData("es")]
    public void Every_refusal_that_a_form_can_meet_has_words(string language)
    {
        var words = PageWords.Of(language)!;
        ErrorReason[] told =
        [
            ErrorReason.PhotoUnreadable, ErrorReason.PhotoTruncated, ErrorReason.PhotoFormatNotAllowed, ErrorReason.PhotoColorModelNotAllowed,
            ErrorReason.PhotoColorProfileNotAllowed, ErrorReason.PhotoMultiFrame, ErrorReason.UploadTooSlow, ErrorReason.EvidenceUnknown,
            ErrorReason.EvidenceConflict, ErrorReason.FindingNotFound, ErrorReason.PhotoNotFound, ErrorReason.BatchNotFound, ErrorReason.BatchNotOpen,
            ErrorReason.BatchNotAtRest, ErrorReason.ServerBusy, ErrorReason.StorageUnavailable, ErrorReason.Draining, ErrorReason.DeadlineTooShort,
            ErrorReason.WorkerLost,
        ];

        Assert.All(told, reason => Assert.NotEmpty(words.Refusal(reason) ?? ""));
        Assert.True(TradeWords.Of(language).Knows("The photo's file size of 99000000 bytes is above the limit of 52428800 bytes."));
        Assert.True(TradeWords.Of(language).Knows("The photo's longer side of 40000 px is above the limit of 16000 px."));
    }

    [Theory]
    [InlineData("de")]
    [InlineData("es")]
    public async Task No_view_of_a_finding_leaves_english(string language)
    {
        var finding = await FindingAsync();
        foreach (var view in new[] { "", "/sheet", "/note", "/job-card" })
        {
            using var request = new HttpRequestMessage(HttpMethod.Get, finding + view);
            request.Headers.TryAddWithoutValidation("Accept-Language", language);
            using var answer = await Http.SendAsync(request, Token);
            var html = await answer.Content.ReadAsStringAsync(Token);
            var text = Regex.Replace(Regex.Replace(html, "<(style|script|option lang)[^>]*>.*?</", " ", RegexOptions.Singleline), "<[^>]+>", " ");

            Assert.Contains($"lang=\"{language}\"", html, StringComparison.Ordinal);
            Assert.DoesNotContain("lang=\"en\"", html.Replace("value=\"en\" lang=\"en\"", "", StringComparison.Ordinal), StringComparison.Ordinal);
            var english = EnglishOnly().Matches(text).Select(word => text[Math.Max(0, word.Index - 30)..Math.Min(text.Length, word.Index + 30)].Trim());
            Assert.Empty(string.Join('\n', english));
        }
    }

    [Theory]
    [InlineData("de")]
    [InlineData("es")]
    public async Task Every_measurement_of_a_photo_can_be_said(string language)
    {
        var words = TradeWords.Of(language);
        using var json = JsonDocument.Parse(await Http.GetStringAsync("/v1" + await FindingAsync(), Token));
        var measurements = json.RootElement.GetProperty("measurements").EnumerateArray().ToList();

        Assert.True(measurements.Count > 60);
        foreach (var one in measurements)
        {
            var metric = one.GetProperty("metric").GetString()!;
            Assert.True(words.Knows(MetricName.Of(metric)), metric);
            Assert.True(words.Knows(MetricName.WithoutUnit(metric)), metric);
            if (one.TryGetProperty("absentReason", out var reason))
            {
                Assert.True(words.Knows(reason.GetString()!), reason.GetString());
            }
        }
    }

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
        var finding = await FindingAsync();
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

    private async Task<string> FindingAsync()
    {
        using var form = new MultipartFormDataContent
        {
            { new StringContent("views"), "reference" },
            { new StringContent("door"), "panel" },
            { new ByteArrayContent(await File.ReadAllBytesAsync(Window.Photo("rust-lower-edge"), Token)), "photos", "door.jpg" },
        };
        using var answer = await Http.PostAsync("/findings", form, Token);
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        return answer.RequestMessage!.RequestUri!.AbsolutePath;
    }

    // Words that are English in every sentence and no word of German or Spanish.
    [GeneratedRegex(@"\b(the|and|of|with|not|or|is|are|from|when|after|before|which|it|that|by|until|paint|photo|within)\b")]
    private static partial Regex EnglishOnly();
}
