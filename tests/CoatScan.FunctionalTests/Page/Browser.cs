using System.Diagnostics;
using Microsoft.Playwright;

namespace CoatScan.FunctionalTests.Page;

/// <summary>One real browser for all tests of the page, and the accessibility checker. What is missing fails the tests and says so.</summary>
/// <remarks>
/// Chromium comes from the system (Debian: <c>apt-get install chromium</c>) or from where <c>CHROMIUM</c> points; the checker, axe-core
/// (MPL-2.0, used in tests only), comes from npm once and stays beside the tests.
/// </remarks>
public sealed class Browser : IAsyncLifetime
{
    private const string AxeVersion = "4.14.1";
    private IPlaywright? _playwright;
    private IBrowser? _browser;

    /// <summary>The checker's script.</summary>
    public string Axe { get; private set; } = "";

    public async ValueTask InitializeAsync()
    {
        var path = Environment.GetEnvironmentVariable("CHROMIUM") is { Length: > 0 } named ? named : "/usr/bin/chromium";
        Assert.True(File.Exists(path), $"There is no browser at {path}. Install it (apt-get install chromium) or let CHROMIUM name one.");
        Axe = await AxeAsync();
        _playwright = await Playwright.CreateAsync();
        _browser = await _playwright.Chromium.LaunchAsync(new()
        {
            ExecutablePath = path,

            // Tests run as root in containers, where the browser's own sandbox does not start; it opens nothing but the page under test.
            Args = ["--no-sandbox"],
        });
    }

    public async ValueTask DisposeAsync()
    {
        if (_browser is not null)
        {
            await _browser.DisposeAsync();
        }

        _playwright?.Dispose();
    }

    /// <summary>Opens a window.</summary>
    /// <param name="address">Address of the service.</param>
    /// <param name="options">Size, language, color scheme; null for a desk screen in English.</param>
    public async Task<Window> OpenAsync(Uri address, BrowserNewContextOptions? options = null)
    {
        options ??= new();
        options.BaseURL = address.ToString();
        options.Locale ??= "en-US";
        options.ViewportSize ??= new() { Width = 1440, Height = 900 };
        options.AcceptDownloads = true;
        var context = await _browser!.NewContextAsync(options);
        context.SetDefaultTimeout(60_000);
        return new Window(context, await context.NewPageAsync(), Axe);
    }

    private static async Task<string> AxeAsync()
    {
        var folder = Path.Combine(AppContext.BaseDirectory, "axe-" + AxeVersion);
        var script = Path.Combine(folder, "node_modules", "axe-core", "axe.min.js");
        if (!File.Exists(script))
        {
            using var npm = Process.Start(new ProcessStartInfo(
                "npm", ["install", "--prefix", folder, "--no-save", "--no-audit", "--no-fund", "--silent", "axe-core@" + AxeVersion]))!;
            await npm.WaitForExitAsync(TestContext.Current.CancellationToken);
            Assert.True(npm.ExitCode == 0 && File.Exists(script), $"npm could not install axe-core {AxeVersion}.");
        }

        return await File.ReadAllTextAsync(script, TestContext.Current.CancellationToken);
    }
}
