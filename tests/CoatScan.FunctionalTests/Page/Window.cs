using System.Text.Json;
using System.Text.RegularExpressions;
using Microsoft.Playwright;

namespace CoatScan.FunctionalTests.Page;

/// <summary>A window of the browser that remembers every error that its console showed.</summary>
public sealed class Window : IAsyncDisposable
{
    private readonly IBrowserContext _context;
    private readonly string _axe;
    private readonly List<string> _errors = [];

    internal Window(IBrowserContext context, IPage page, string axe)
    {
        _context = context;
        _axe = axe;
        Page = page;
        page.Console += (_, message) =>
        {
            if (message.Type is "error" or "warning")
            {
                _errors.Add(message.Text);
            }
        };
        page.PageError += (_, error) => _errors.Add(error);
    }

    public IPage Page { get; }

    /// <summary>Photos of this repository's invented panels.</summary>
    public static string Photo(string name) => Path.Combine(AppContext.BaseDirectory, "photos", name + ".jpg");

    /// <summary>Sends photos by the form of the first page and waits for the finding.</summary>
    public async Task JudgeAsync(string panel, string reference, params string[] photos)
    {
        await Page.GotoAsync("/");
        await Page.GetByLabel("Choose photos").SetInputFilesAsync(photos.Select(Photo));
        await Page.GetByLabel("Panel (optional)").FillAsync(panel);
        await Page.GetByLabel("Claim or vehicle (optional)").FillAsync(reference);
        await Page.GetByRole(AriaRole.Button, new() { Name = "Judge the panel" }).ClickAsync();
        await ArriveAsync("/findings/");
    }

    /// <summary>Waits for the address that an action leads to; unlike waiting for the navigation itself, it misses none that came early.</summary>
    public Task ArriveAsync(string address) => Assertions.Expect(Page).ToHaveURLAsync(new Regex(address), new() { Timeout = 60_000 });

    /// <summary>Nothing that a checker of accessibility can find is wrong, nothing runs over the side, the console is empty.</summary>
    public async Task CheckAsync(string view)
    {
        // Half a page of images may still be on its way; a check of contrast needs the fonts, not them.
        await Page.WaitForLoadStateAsync(LoadState.DOMContentLoaded);
        await Page.EvaluateAsync(_axe);
        var found = await Page.EvaluateAsync<JsonElement>("async () => (await axe.run()).violations.map(v => v.id + ' ' + v.nodes.map(n => n.html.slice(0, 160) + ' ' + n.failureSummary).join(' | '))");
        Assert.True(found.GetArrayLength() == 0, $"{view}: {found}");
        var twice = await Page.EvaluateAsync<string[]>("() => [...document.querySelectorAll('[id]')].map(one => one.id).filter((id, at, all) => all.indexOf(id) !== at)");
        Assert.True(twice.Length == 0, $"{view}: ids twice: {string.Join(", ", twice)}");
        var over = await Page.EvaluateAsync<int>("() => document.documentElement.scrollWidth - document.documentElement.clientWidth");
        Assert.True(over == 0, $"{view}: {over} px run over the side.");
        AssertQuiet(view);
    }

    /// <summary>Forgets the errors so far: those that a test made itself.</summary>
    public void ForgiveErrors() => _errors.Clear();

    /// <summary>The console showed no error.</summary>
    public void AssertQuiet(string view) => Assert.True(_errors.Count == 0, $"{view}: {string.Join("; ", _errors)}");

    public ValueTask DisposeAsync() => _context.DisposeAsync();
}
