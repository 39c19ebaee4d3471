using System.Net;
using System.Text.Json;
using System.Text.RegularExpressions;
using CoatScan.Findings;
using CoatScan.FunctionalTests.Infrastructure;
using CoatScan.Reports;
using CoatScan.Service.Page.Words;

namespace CoatScan.FunctionalTests.Page;

/// <summary>The page speaks the language of its reader, in all that it says.</summary>
[Collection(BrowserTests.Name)]
public sealed partial class PageLanguageTests(Browser browser, SharedServer shared)
{
    private static CancellationToken Token => TestContext.Current.CancellationToken;

    private HttpClient Http => shared.Server.Http;

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

    [Theory]
    [InlineData("de-DE", @"[0-9]{2}\.[0-9]{2}\.20[0-9]{2} [0-9]{2}:[0-9]{2} UTC")]
    [InlineData("es-ES", "[0-9]{2}/[0-9]{2}/20[0-9]{2} [0-9]{2}:[0-9]{2} UTC")]
    public async Task Numbers_and_days_are_those_of_the_language_of_the_page(string language, string day)
    {
        var finding = await PageFinding.MakeAsync(Http, Token);
        await using var window = await browser.OpenAsync(Http.BaseAddress!, new() { Locale = language });
        await window.Page.GotoAsync("/");
        var home = await window.Page.Locator("main").InnerTextAsync();
        await window.Page.GotoAsync(finding);
        var text = string.Join('\n', await window.Page.Locator(".verdict, .sure, .ask, #do, #evidence, #measured, #who").AllInnerTextsAsync());

        Assert.Matches(day, home);
        Assert.Matches("[0-9],[0-9]", text);
        Assert.DoesNotMatch(@"(?<![0-9.])[0-9]+\.[0-9]+(?![0-9.])", text);
    }

    [Theory]
    [InlineData("de")]
    [InlineData("es")]
    public async Task No_view_of_a_finding_leaves_english(string language)
    {
        var finding = await PageFinding.MakeAsync(Http, Token);
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
        using var json = JsonDocument.Parse(await Http.GetStringAsync("/v1" + await PageFinding.MakeAsync(Http, Token), Token));
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
        var finding = await PageFinding.MakeAsync(Http, Token);
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

    // Words that are English in every sentence and no word of German or Spanish.
    [GeneratedRegex(@"\b(the|and|of|with|not|or|is|are|from|when|after|before|which|it|that|by|until|paint|photo|within)\b")]
    private static partial Regex EnglishOnly();
}
