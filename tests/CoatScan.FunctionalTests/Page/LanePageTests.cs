using System.Text.Json;
using CoatScan.FunctionalTests.CommandLine;
using CoatScan.FunctionalTests.Infrastructure;
using Microsoft.Playwright;

namespace CoatScan.FunctionalTests.Page;

/// <summary>The journey of a lane: a folder of vehicles, graded while people watch.</summary>
[Collection(BrowserTests.Name)]
public sealed class LanePageTests(Browser browser, SharedServer shared) : IDisposable
{
    private static readonly string[] Photos =
    [
        "rust-lower-edge", "sound-half-panel", "cracks-old-repaint", "stone-chips-near", "blisters-near", "not-a-panel",
        "scratches-door-edge", "rings-after-rain",
    ];

    private readonly TempFolder _temp = new();

    private static CancellationToken Token => TestContext.Current.CancellationToken;

    public void Dispose() => _temp.Dispose();

    [Fact]
    public async Task Folder_is_graded_and_shown_worst_first_with_retakes_filter_vehicle_and_table()
    {
        var folder = Lots(vehicles: 4, photosEach: 2);
        await File.WriteAllTextAsync(Path.Combine(folder, "car-01", "Thumbs.db"), "no photo", Token);
        await using var window = await browser.OpenAsync(shared.Server.Http.BaseAddress!);
        await SendAsync(window, "row 4", folder);
        await DoneAsync(window);

        await Assertions.Expect(window.Page.Locator(".lead").First).ToContainTextAsync("8 of 8 panels graded");
        Assert.Equal(await OrderAsync(window), await window.Page.Locator(".lane tbody th a").AllInnerTextsAsync());
        await window.CheckAsync("lane");

        await window.Page.GetByLabel("Show").SelectOptionAsync("retake");
        await window.ArriveAsync("show=retake");
        await Assertions.Expect(Shown(window)).ToHaveCountAsync(1);
        await Assertions.Expect(Shown(window)).ToContainTextAsync("car-03");

        await Shown(window).Locator("a").ClickAsync();
        await Assertions.Expect(window.Page.GetByRole(AriaRole.Heading, new() { Level = 1 })).ToHaveTextAsync("car-03");
        await Assertions.Expect(window.Page.Locator(".thumbs a")).ToHaveCountAsync(2);
        await window.CheckAsync("vehicle");

        await window.Page.GoBackAsync();
        await Assertions.Expect(Shown(window)).ToHaveCountAsync(1);
        var table = await shared.Server.Http.GetStringAsync(new Uri(window.Page.Url).AbsolutePath + "/findings.csv", Token);
        Assert.Equal(1 + 8, table.Split("\r\n", StringSplitOptions.RemoveEmptyEntries).Length);
        var link = await window.Page.GetByRole(AriaRole.Link, new() { Name = "For programs (NDJSON)" }).GetAttributeAsync("href");
        using var lines = await shared.Server.Http.GetAsync(link, Token);
        Assert.Equal("application/x-ndjson", lines.Content.Headers.ContentType!.MediaType);
        var findings = (await lines.Content.ReadAsStringAsync(Token)).Split('\n', StringSplitOptions.RemoveEmptyEntries).Select(line => JsonDocument.Parse(line).RootElement).ToList();
        Assert.Equal(8, findings.Count);
        Assert.All(findings, one => Assert.StartsWith("findings/", one.GetProperty("name").GetString(), StringComparison.Ordinal));

        // The same on one sheet, in the same order.
        await window.Page.GetByLabel("Show").SelectOptionAsync("all");
        var order = await OrderAsync(window);
        await window.Page.GetByRole(AriaRole.Link, new() { Name = "Summary of all vehicles, page to print" }).ClickAsync();
        await Assertions.Expect(window.Page.Locator("tbody tr")).ToHaveCountAsync(8);
        var names = await window.Page.Locator("tbody td:first-child, tbody th:first-child").AllInnerTextsAsync();
        Assert.Equal(order, names.Distinct());
        await window.CheckAsync("summary");
    }

    [Fact]
    public async Task Filter_hides_what_does_not_fit_without_asking_the_service()
    {
        await using var window = await browser.OpenAsync(shared.Server.Http.BaseAddress!);
        await SendAsync(window, "row 10", Lots(vehicles: 4, photosEach: 2));
        await DoneAsync(window);
        var asked = new List<string>();
        window.Page.Request += (_, request) => asked.Add(request.Url);

        await window.Page.GetByLabel("Show").SelectOptionAsync("retake");
        await Assertions.Expect(Shown(window)).ToHaveTextAsync(new System.Text.RegularExpressions.Regex("car-03"));
        await window.Page.GetByLabel("Show").SelectOptionAsync("all");
        await Assertions.Expect(Shown(window)).ToHaveCountAsync(4);
        await window.Page.Locator("#q").FillAsync("CAR-02");
        await Assertions.Expect(Shown(window)).ToHaveCountAsync(1);
        await Assertions.Expect(window.Page.Locator(".lane caption")).ToHaveTextAsync("1 vehicle");
        await window.Page.Locator("#q").FillAsync("nobody");
        await Assertions.Expect(window.Page.Locator("#none")).ToBeVisibleAsync();
        await window.CheckAsync("nothing fits");

        await window.ArriveAsync("q=nobody");
        Assert.DoesNotContain(asked, url => url.Contains("/lanes/", StringComparison.Ordinal));
        await window.Page.ReloadAsync();
        await Assertions.Expect(window.Page.Locator("#q")).ToHaveValueAsync("nobody");
        await Assertions.Expect(Shown(window)).ToHaveCountAsync(0);
    }

    [Fact]
    public async Task Filter_and_focus_stay_while_a_lane_of_forty_vehicles_is_being_graded()
    {
        await using var window = await browser.OpenAsync(shared.Server.Http.BaseAddress!);
        await SendAsync(window, "row 11", Lots(vehicles: 40, photosEach: 1));
        await window.Page.Locator("#q").FillAsync("car-02");
        await window.Page.Locator("#q").FocusAsync();

        await DoneAsync(window);

        await Assertions.Expect(window.Page.Locator("#q")).ToHaveValueAsync("car-02");
        await Assertions.Expect(window.Page.Locator("#q")).ToBeFocusedAsync();
        await Assertions.Expect(Shown(window)).ToHaveCountAsync(1);
        await Assertions.Expect(window.Page.Locator(".lane tbody tr")).ToHaveCountAsync(40);
        Assert.Equal(await OrderAsync(window), await window.Page.Locator(".lane tbody th a").EvaluateAllAsync<string[]>("all => all.map(one => one.textContent)"));
        window.AssertQuiet("graded lane");
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public async Task Folder_that_is_dropped_is_sent_like_one_that_was_chosen(bool asVehicles)
    {
        var folder = Lots(vehicles: 2, photosEach: 1);
        var door = Directory.CreateDirectory(Path.Combine(folder, "car-02", "left door")).FullName;
        File.Copy(Window.Photo("blisters-near"), Path.Combine(door, "near.jpg"));
        await using var window = await browser.OpenAsync(shared.Server.Http.BaseAddress!);
        await window.Page.GotoAsync("/lanes");

        await DropAsync(window, asVehicles ? Directory.GetDirectories(folder) : [folder]);
        await Assertions.Expect(window.Page.Locator(".busy")).ToHaveTextAsync("Ready to send: 2 vehicles, 3 photos.");
        await window.Page.GetByRole(AriaRole.Button, new() { Name = "Upload and grade" }).ClickAsync();
        await DoneAsync(window);

        await Assertions.Expect(window.Page.Locator(".lead").First).ToContainTextAsync("3 of 3 panels graded");
        Assert.Equal(["car-01", "car-02"], (await window.Page.Locator(".lane tbody th a").AllInnerTextsAsync()).Order());
        window.AssertQuiet("dropped folder");
    }

    [Fact]
    public async Task Reload_in_mid_batch_shows_the_same_lane_which_comes_to_its_end()
    {
        await using var window = await browser.OpenAsync(shared.Server.Http.BaseAddress!);
        await SendAsync(window, "row 5", Lots(vehicles: 3, photosEach: 3));
        await window.Page.Locator("#live").WaitForAsync();

        await window.Page.ReloadAsync();

        await DoneAsync(window);
        await Assertions.Expect(window.Page.Locator(".lead").First).ToContainTextAsync("9 of 9 panels graded");
        window.AssertQuiet("reload");
    }

    [Fact]
    public async Task Service_killed_in_mid_batch_goes_on_and_the_page_with_it()
    {
        var data = Directory.CreateDirectory(Path.Combine(_temp.Path, "data")).FullName;
        string lane;
        await using (var first = await ServiceProcess.StartAsync(data))
        {
            await using var window = await browser.OpenAsync(first.Http.BaseAddress!);
            await SendAsync(window, "row 6", Lots(vehicles: 4, photosEach: 3));
            await window.Page.WaitForFunctionAsync("() => Number(document.getElementById('live')?.dataset.done) > 0");
            lane = new Uri(window.Page.Url).AbsolutePath;
            await first.KillAsync();
        }

        await using var second = await ServiceProcess.StartAsync(data);
        await using var again = await browser.OpenAsync(second.Http.BaseAddress!);
        await again.Page.GotoAsync(lane);
        await DoneAsync(again);

        await Assertions.Expect(again.Page.Locator(".lead").First).ToContainTextAsync("12 of 12 panels graded");
        await Assertions.Expect(Shown(again)).ToHaveCountAsync(4);
    }

    [Fact]
    public async Task Upload_that_broke_off_goes_on_and_sends_only_what_is_missing()
    {
        var folder = Lots(vehicles: 3, photosEach: 2);
        await using var window = await browser.OpenAsync(shared.Server.Http.BaseAddress!);
        var sent = new List<string>();
        var broken = false;
        await window.Page.RouteAsync("**/lanes/*/photos", async route =>
        {
            // The line breaks with the second vehicle, once.
            if (sent.Count == 1 && !broken)
            {
                broken = true;
                await route.AbortAsync();
                return;
            }

            sent.Add(route.Request.Url);
            await route.ContinueAsync();
        });
        await SendAsync(window, "row 7", folder);
        await Assertions.Expect(window.Page.Locator(".busy")).ToContainTextAsync("car-02 could not be sent");
        window.ForgiveErrors();

        await window.Page.ReloadAsync();
        await Assertions.Expect(window.Page.Locator(".lead").First).ToContainTextAsync("Panels here so far: 2.");
        await window.CheckAsync("open lane");
        await window.Page.GetByLabel("Folder with one subfolder for each vehicle").SetInputFilesAsync(folder);
        await window.Page.GetByRole(AriaRole.Button, new() { Name = "Go on with the upload" }).ClickAsync();
        await DoneAsync(window);

        Assert.Equal(3, sent.Count);
        await Assertions.Expect(window.Page.Locator(".lead").First).ToContainTextAsync("6 of 6 panels graded");
    }

    [Fact]
    public async Task Folder_without_vehicles_is_refused_with_what_to_do()
    {
        var folder = Directory.CreateDirectory(Path.Combine(_temp.Path, "flat")).FullName;
        File.Copy(Window.Photo("blisters-near"), Path.Combine(folder, "door.jpg"));
        await using var window = await browser.OpenAsync(shared.Server.Http.BaseAddress!);

        await SendAsync(window, "row 8", folder);

        await Assertions.Expect(window.Page.Locator(".busy")).ToHaveTextAsync("door.jpg lies in no vehicle's folder. Give each vehicle a folder of its own.");
    }

    [Fact]
    public async Task Lane_works_without_script()
    {
        await using var window = await browser.OpenAsync(shared.Server.Http.BaseAddress!, new() { JavaScriptEnabled = false });
        await SendAsync(window, "row 9", Lots(vehicles: 2, photosEach: 1));
        await window.ArriveAsync("/lanes/.");

        await Assertions.Expect(window.Page.Locator(".lead").First).ToContainTextAsync("2 of 2 panels graded", new() { Timeout = 120_000 });
        await Assertions.Expect(window.Page.Locator(".lane tbody tr")).ToHaveCountAsync(2);
    }

    private static ILocator Shown(Window window) => window.Page.Locator(".lane tbody tr:not([hidden])");

    // As the system's file manager drops: script cannot make an entry of a folder.
    private static async Task DropAsync(Window window, string[] paths)
    {
        var box = (await window.Page.Locator("form[data-lane]").BoundingBoxAsync())!;
        var session = await window.Page.Context.NewCDPSessionAsync(window.Page);
        foreach (var type in new[] { "dragEnter", "dragOver", "drop" })
        {
            await session.SendAsync("Input.dispatchDragEvent", new Dictionary<string, object>
            {
                ["type"] = type,
                ["x"] = box.X + 20,
                ["y"] = box.Y + 20,
                ["data"] = new Dictionary<string, object> { ["items"] = Array.Empty<object>(), ["files"] = paths, ["dragOperationsMask"] = 1 },
            });
        }
    }

    private static async Task SendAsync(Window window, string name, string folder)
    {
        await window.Page.GotoAsync("/lanes");
        await window.Page.Locator("#name").FillAsync(name);
        await window.Page.GetByLabel("Folder with one subfolder for each vehicle").SetInputFilesAsync(folder);
        await window.Page.GetByRole(AriaRole.Button, new() { Name = "Upload and grade" }).ClickAsync();
    }

    private static async Task DoneAsync(Window window) => await window.Page.WaitForFunctionAsync(
        "() => document.getElementById('live')?.dataset.live === 'rest'", null, new() { Timeout = 180_000 });

    private async Task<List<string>> OrderAsync(Window window)
    {
        var batch = new Uri(window.Page.Url).AbsolutePath.Split('/')[^1];
        var answer = await shared.Server.Http.GetStringAsync($"/v1/batches/{batch}/vehicles", Token);
        return [.. JsonDocument.Parse(answer).RootElement.GetProperty("vehicles").EnumerateArray().Select(one => one.GetProperty("vehicleRef").GetString()!)];
    }

    private string Lots(int vehicles, int photosEach)
    {
        var folder = Path.Combine(_temp.Path, "lots");
        var next = 0;
        for (var vehicle = 1; vehicle <= vehicles; vehicle++)
        {
            var own = Directory.CreateDirectory(Path.Combine(folder, $"car-{vehicle:00}")).FullName;
            for (var photo = 0; photo < photosEach; photo++)
            {
                var name = Photos[next++ % Photos.Length];
                File.Copy(Window.Photo(name), Path.Combine(own, $"{photo}-{name}.jpg"));
            }
        }

        return folder;
    }
}
