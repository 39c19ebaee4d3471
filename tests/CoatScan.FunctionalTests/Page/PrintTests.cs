using System.Text;
using CoatScan.FunctionalTests.Infrastructure;
using Microsoft.Playwright;
using UglyToad.PdfPig;

namespace CoatScan.FunctionalTests.Page;

/// <summary>HTML sheets on paper, as a real browser prints them: how many pages, in which letters, and that nothing of them is the reader's.</summary>
[Collection(BrowserTests.Name)]
public sealed class PrintTests(Browser browser, SharedServer shared)
{
    private static CancellationToken Token => TestContext.Current.CancellationToken;

    private HttpClient Http => shared.Server.Http;

    [Theory]
    [InlineData("rings-after-rain")]
    [InlineData("stone-chips-near")]
    [InlineData("rust-lower-edge")]
    [InlineData("not-a-panel")]
    [InlineData("rings-after-rain", "spots-hood")]
    [InlineData("scratches-door-edge", "runs-on-door")]
    public async Task Finding_sheet_takes_one_or_two_pages_in_every_language(params string[] photos)
    {
        var finding = await JudgeAsync("print", "door", photos);
        await AssertTwoPagesAsync(finding, string.Join(", ", photos));
    }

    [Fact]
    public async Task Decided_finding_with_all_that_was_said_takes_two_pages()
    {
        var first = await JudgeAsync("print", "door", "blisters-near");
        using var answer = await Http.PostAsync(first, new FormUrlEncodedContent([new("answer", "test.prick.water"), new("film", "118; 320; 410")]), Token);
        answer.EnsureSuccessStatusCode();

        await AssertTwoPagesAsync(answer.RequestMessage!.RequestUri!.AbsolutePath, "decided");
    }

    private async Task AssertTwoPagesAsync(string finding, string name)
    {
        foreach (var language in new[] { "en-US", "de-DE", "es-ES" })
        {
            await using var window = await browser.OpenAsync(Http.BaseAddress!, new() { Locale = language });
            using var printed = PdfDocument.Open(await PrintAsync(window, finding + "/sheet"));
            TestContext.Current.TestOutputHelper?.WriteLine($"{name} {language}: {printed.NumberOfPages} pages.");

            Assert.InRange(printed.NumberOfPages, 1, 2);
            AssertOwnFonts(printed);
            using var request = new HttpRequestMessage(HttpMethod.Get, finding + "/sheet?as=pdf");
            request.Headers.TryAddWithoutValidation("Accept-Language", language);
            using var answer = await Http.SendAsync(request, Token);
            using var pdf = PdfDocument.Open(await answer.Content.ReadAsByteArrayAsync(Token));
            Assert.InRange(pdf.NumberOfPages, 1, 2);
        }
    }

    [Theory]
    [InlineData("/note", 1)]
    [InlineData("/job-card", 1)]
    public async Task Card_takes_one_page(string card, int mostPages)
    {
        var finding = await JudgeAsync("print", "door", "rings-after-rain");
        await using var window = await browser.OpenAsync(Http.BaseAddress!);

        using var printed = PdfDocument.Open(await PrintAsync(window, finding + card));

        Assert.InRange(printed.NumberOfPages, 1, mostPages);
        AssertOwnFonts(printed);
    }

    [Fact]
    public async Task Vehicle_sheet_takes_no_more_pages_than_its_pdf()
    {
        foreach (var photo in new[] { "rings-after-rain", "stone-chips-near", "rust-lower-edge" })
        {
            await JudgeAsync("print-vehicle", photo, photo);
        }

        await using var window = await browser.OpenAsync(Http.BaseAddress!);
        const string sheet = "/claims/sheet?reference=print-vehicle";
        using var printed = PdfDocument.Open(await PrintAsync(window, sheet));
        using var pdf = PdfDocument.Open(await Http.GetByteArrayAsync(sheet + "&as=pdf", Token));
        TestContext.Current.TestOutputHelper?.WriteLine($"vehicle: {printed.NumberOfPages} pages printed, {pdf.NumberOfPages} as PDF.");

        Assert.InRange(printed.NumberOfPages, 1, pdf.NumberOfPages);
        AssertOwnFonts(printed);
    }

    [Fact]
    public async Task Sheet_carries_its_fonts_and_stays_light()
    {
        var finding = await JudgeAsync("print", "door", "rings-after-rain");
        await using var window = await browser.OpenAsync(Http.BaseAddress!);
        var asked = new List<string>();
        window.Page.Request += (_, request) => asked.Add(request.Url);
        var answer = await window.Page.GotoAsync(finding + "/sheet");
        await window.Page.EvaluateAsync("() => document.fonts.ready");
        var loaded = await window.Page.EvaluateAsync<string[]>(
            "() => [...document.fonts].filter(one => one.status === 'loaded').map(one => `${one.family.replaceAll('\"', '')} ${one.weight}`)");
        var html = await answer!.TextAsync();
        var fonts = System.Text.RegularExpressions.Regex.Matches(html, "data:font/woff2;base64,[^)]+").Sum(one => one.Length);
        TestContext.Current.TestOutputHelper?.WriteLine($"Sheet {Encoding.UTF8.GetByteCount(html) / 1024} KB, of which fonts {fonts / 1024} KB.");

        Assert.Equal(["Open Sans 400", "Open Sans 600"], loaded.Order());
        Assert.All(asked, url => Assert.True(url.StartsWith("data:", StringComparison.Ordinal) || url.EndsWith("/sheet", StringComparison.Ordinal), url));
        Assert.InRange(fonts, 50 * 1024, 90 * 1024);
        window.AssertQuiet("sheet");
    }

    // Every letter is of the font that the sheet carries, whatever the machine has.
    private static void AssertOwnFonts(PdfDocument printed) => Assert.All(
        printed.GetPages().SelectMany(page => page.Letters).Where(letter => letter.Value.Trim().Length > 0).Select(letter => letter.FontName ?? "").Distinct(),
        font => Assert.Contains("OpenSans", font, StringComparison.Ordinal));

    private static async Task<byte[]> PrintAsync(Window window, string sheet)
    {
        await window.Page.GotoAsync(sheet);
        await window.Page.EvaluateAsync("() => document.fonts.ready");
        return await window.Page.PdfAsync(new PagePdfOptions { PreferCSSPageSize = true, PrintBackground = true });
    }

    private async Task<string> JudgeAsync(string reference, string panel, params string[] photos)
    {
        using var form = new MultipartFormDataContent
        {
            { new StringContent(reference), "reference" },
            { new StringContent(panel), "panel" },
        };
        foreach (var photo in photos)
        {
            form.Add(new ByteArrayContent(await File.ReadAllBytesAsync(Window.Photo(photo), Token)), "photos", photo + ".jpg");
        }

        using var answer = await Http.PostAsync("/findings", form, Token);
        answer.EnsureSuccessStatusCode();
        return answer.RequestMessage!.RequestUri!.AbsolutePath;
    }
}
