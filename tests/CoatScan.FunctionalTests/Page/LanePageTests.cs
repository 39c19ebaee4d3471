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
        await Assertions.Expect(window.Page.Locator(".lane tbody tr")).ToHaveCountAsync(1);
        await Assertions.Expect(window.Page.Locator(".lane tbody tr")).ToContainTextAsync("car-03");

        await window.Page.Locator(".lane tbody a").First.ClickAsync();
        await Assertions.Expect(window.Page.GetByRole(AriaRole.Heading, new() { Level = 1 })).ToHaveTextAsync("car-03");
        await Assertions.Expect(window.Page.Locator(".thumbs a")).ToHaveCountAsync(2);
        await window.CheckAsync("vehicle");

        await window.Page.GoBackAsync();
        await Assertions.Expect(window.Page.Locator(".lane tbody tr")).ToHaveCountAsync(1);
        var table = await shared.Server.Http.GetStringAsync(new Uri(window.Page.Url).AbsolutePath + "/findings.csv", Token);
        Assert.Equal(1 + 8, table.Split("\r\n", StringSplitOptions.RemoveEmptyEntries).Length);
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
        await Assertions.Expect(again.Page.Locator(".lane tbody tr")).ToHaveCountAsync(4);
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
        await Assertions.Expect(window.Page.Locator(".lead").First).ToContainTextAsync("2 panels are here");
        await window.CheckAsync("open lane");
        await window.Page.GetByLabel("Folder with one subfolder a vehicle").SetInputFilesAsync(folder);
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

    private static async Task SendAsync(Window window, string name, string folder)
    {
        await window.Page.GotoAsync("/lanes");
        await window.Page.Locator("#name").FillAsync(name);
        await window.Page.GetByLabel("Folder with one subfolder a vehicle").SetInputFilesAsync(folder);
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
