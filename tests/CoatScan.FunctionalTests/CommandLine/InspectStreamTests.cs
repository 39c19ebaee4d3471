using System.Globalization;
using System.Text.Json;
using CoatScan.Cli.Photos;

namespace CoatScan.FunctionalTests.CommandLine;

/// <summary><c>inspect</c> against a server that misbehaves on demand.</summary>
public sealed class InspectStreamTests : IAsyncLifetime
{
    private readonly TempFolder _folder = new();
    private FakeServer _server = null!;

    public async ValueTask InitializeAsync() => _server = await FakeServer.StartAsync();

    public async ValueTask DisposeAsync()
    {
        await _server.DisposeAsync();
        _folder.Dispose();
    }

    [Fact]
    public async Task Inspect_slow_photos_between_fast_ones_keeps_the_order_of_the_input()
    {
        var paths = Enumerable.Range(0, 20)
            .Select(i => Photo($"{i:00}.jpg", i % 5 == 0 ? $"slow {i}" : $"fast {i}"))
            .ToArray();

        var run = await InspectAsync(paths);

        Assert.Equal(0, run.Code);
        Assert.Equal(paths, run.Lines.Select(NameOf));
    }

    [Fact]
    public async Task Inspect_many_photos_has_few_in_flight()
    {
        var paths = Enumerable.Range(0, 30).Select(i => Photo($"{i:00}.jpg", $"slow-ish {i}")).ToArray();

        await InspectAsync(paths);

        Assert.InRange(_server.Findings.MostInFlight, 2, StreamRound.MostInFlight);
    }

    [Fact]
    public async Task Inspect_broken_files_between_good_ones_answers_each_in_its_place()
    {
        var large = _folder.Write("large.jpg", new byte[FakeKnowledge.MaxInlineBytes + 1]);
        var missing = Path.Combine(_folder.Path, "missing.jpg");
        var empty = Directory.CreateDirectory(Path.Combine(_folder.Path, "empty")).FullName;
        string[] paths =
        [
            Photo("a.jpg", "good a"), missing, Photo("b.jpg", "refuse b"), Photo("c.jpg", "good c"), large, empty,
            Photo("d.jpg", "good d"),
        ];

        var run = await InspectAsync(paths);

        Assert.Equal(1, run.Code);
        Assert.Equal(paths, run.Lines.Select(NameOf));
        Assert.Equal(
            [null, "FILE_NOT_FOUND", "PHOTO_TRUNCATED", null, "PHOTO_TOO_LARGE", "FOLDER_WITHOUT_PHOTOS", null],
            run.Lines.Select(ReasonOf));
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public async Task Inspect_zones_reach_the_service(bool samePanel)
    {
        string[] options = samePanel ? ["--same-panel"] : [];

        await InspectAsync([Photo("a.jpg", "good a"), "--compare-zones", "1,2,30,40:50,6,70,80", .. options]);

        Assert.Equal(
            new CoatScan.V1.ZonePair
            {
                First = new() { XPx = 1, YPx = 2, WidthPx = 30, HeightPx = 40 },
                Second = new() { XPx = 50, YPx = 6, WidthPx = 70, HeightPx = 80 },
            },
            _server.Findings.LastZones);
    }

    [Fact]
    public async Task Inspect_zones_of_a_photo_left_out_go_with_it()
    {
        string[] words =
            [Photo("a.jpg", "refuse a"), Photo("b.jpg", "good b"), "--same-panel", "--compare-zones", "1,2,30,40:50,6,70,80"];

        await InspectAsync(words);

        Assert.Null(_server.Findings.LastZones);
    }

    [Fact]
    public async Task Inspect_lost_stream_is_taken_up_again_and_nothing_is_lost()
    {
        var paths = Enumerable.Range(0, 12)
            .Select(i => Photo($"{i:00}.jpg", i is 3 or 9 ? $"break-once {i}" : $"good {i}"))
            .ToArray();

        var run = await InspectAsync(paths);

        Assert.Equal(0, run.Code);
        Assert.Equal(paths, run.Lines.Select(NameOf));
        Assert.All(run.Lines, line => Assert.Null(ReasonOf(line)));
    }

    [Fact]
    public async Task Inspect_busy_service_is_asked_again()
    {
        string[] paths = [Photo("a.jpg", "good"), Photo("b.jpg", "busy-once"), Photo("c.jpg", "good too")];

        var run = await InspectAsync(paths);

        Assert.Equal(0, run.Code);
        Assert.Equal(paths, run.Lines.Select(NameOf));
    }

    [Fact]
    public async Task Inspect_photo_that_ends_the_stream_does_not_stop_those_after_it()
    {
        var paths = Enumerable.Range(0, 10)
            .Select(i => Photo($"{i:00}.jpg", i == 0 ? "poison" : $"good {i}"))
            .ToArray();

        var run = await InspectAsync(paths);

        Assert.Equal(1, run.Code);
        Assert.Equal(paths, run.Lines.Select(NameOf));
        Assert.Equal("INTERNAL", ReasonOf(run.Lines[0]));
        Assert.Null(ReasonOf(run.Lines[^1]));
    }

    [Fact]
    public async Task Inspect_service_that_stays_away_answers_every_photo_with_an_error_and_3()
    {
        string[] paths = [Photo("a.jpg", "break-always"), Photo("b.jpg", "good"), Photo("c.jpg", "good too")];

        var run = await InspectAsync(paths);

        Assert.Equal(3, run.Code);
        Assert.Equal(paths, run.Lines.Select(NameOf));
        Assert.Equal("UNAVAILABLE", ReasonOf(run.Lines[0]));
        Assert.Contains("stopped answering", run.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Inspect_facts_reach_the_service_as_given()
    {
        await InspectAsync(
            Photo("a.jpg", "good"),
            "--panel", "hood", "--evidence", "form.rings,relief.sunk", "--film-um", "118,125.5", "--gloss-60", "22",
            "--delta-e-00", "1.5", "--mm-per-px", "0.25", "--reflected-distance-mm", "300", "--camera-distance-mm", "500");

        var facts = _server.Findings.LastFacts!;
        Assert.Equal("hood", facts.Panel);
        Assert.Equal(["form.rings", "relief.sunk"], facts.Evidence);
        Assert.Equal([118, 125.5], facts.Readings.FilmUm);
        Assert.Equal(22, facts.Readings.Gloss60);
        Assert.Equal(1.5, facts.Readings.DeltaE00);
        Assert.Equal(0.25, facts.MmPerPx);
        Assert.Equal((300, 500), (facts.ReflectedDistanceMm, facts.CameraDistanceMm));
    }

    [Fact]
    public async Task Inspect_said_by_and_applied_on_reach_the_service()
    {
        await InspectAsync(
            Photo("a.jpg", "good"), "--evidence", "history.sudden", "--said-by", "owner", "--applied-on", "2026-05-01");

        var facts = _server.Findings.LastFacts!;
        Assert.Empty(facts.Evidence);
        Assert.Equal(("history.sudden", "owner"), (facts.Statements[0].Evidence, facts.Statements[0].SaidBy));
        Assert.Equal("2026-05-01", facts.AppliedOn);
    }

    [Fact]
    public async Task Inspect_evidence_that_the_service_does_not_know_is_one_usage_error()
    {
        var run = await InspectAsync(Photo("a.jpg", "good"), Photo("b.jpg", "good"), "--evidence", "form.unknown");
        var said = await InspectAsync(Photo("a.jpg", "good"), "--evidence", "form.unknown", "--said-by", "owner");

        Assert.Equal((2, 2), (run.Code, said.Code));
        Assert.Empty(run.Out);
        Assert.Contains("--evidence", run.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Inspect_folder_takes_photos_below_it_by_ordinal_order_and_no_other_files()
    {
        string[] expected =
        [
            Photo("car/B.JPG", "1"), Photo("car/a.jpeg", "2"), Photo("car/b.png", "3"), Photo("car/sub/c.heic", "4"),
        ];
        _folder.Write("car/notes.txt", "no photo");
        _folder.Write("car/.hidden.jpg", "no photo");

        var run = await InspectAsync(Path.Combine(_folder.Path, "car"));

        Assert.Equal(expected, run.Lines.Select(NameOf));
    }

    [Fact]
    public async Task Inspect_same_panel_gives_one_finding_and_names_the_photos_left_out()
    {
        var missing = Path.Combine(_folder.Path, "missing.jpg");
        var refused = Photo("b.jpg", "refuse");
        var run = await InspectAsync(Photo("a.jpg", "good"), missing, refused, Photo("c.jpg", "good"), "--same-panel");

        Assert.Equal(1, run.Code);
        Assert.Equal(3, run.Lines.Length);
        using var finding = JsonDocument.Parse(run.Lines[0]);
        Assert.Equal(2, finding.RootElement.GetProperty("photos").GetArrayLength());
        Assert.Equal([missing, refused], run.Lines[1..].Select(NameOf));
        Assert.Equal(["FILE_NOT_FOUND", "PHOTO_TRUNCATED"], run.Lines[1..].Select(ReasonOf));
    }

    [Fact]
    public async Task Inspect_same_panel_of_13_photos_is_a_usage_error()
    {
        var paths = Enumerable.Range(0, 13).Select(i => Photo($"{i:00}.jpg", $"good {i}"));

        var run = await InspectAsync([.. paths, "--same-panel"]);

        Assert.Equal(2, run.Code);
        Assert.Contains("1 to 12 photos; 13 are given", run.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Inspect_out_leaves_a_file_a_photo_and_a_summary_without_overwriting()
    {
        string[] paths =
        [
            Photo("one/left.jpg", "good 1"), Photo("two/left.jpg", "good 2"), Photo("two/LEFT.png", "good 3"),
            Photo("bad.jpg", "refuse"),
        ];
        var outFolder = Path.Combine(_folder.Path, "out");

        var run = await InspectAsync([.. paths, "--out", outFolder]);

        Assert.Equal(1, run.Code);
        Assert.Equal(
            [
                "LEFT-3.html", "LEFT-3.json", "bad.json", "findings.csv", "index.html", "left-2.html", "left-2.json", "left.html", "left.json",
                "photo-guide.html", "summary.txt",
            ],
            Directory.GetFiles(outFolder).Select(Path.GetFileName).Order(StringComparer.Ordinal));
        Assert.Equal(run.Lines[0], (await ReadAsync(outFolder, "left.json")).TrimEnd());
        Assert.Equal("PHOTO_TRUNCATED", ReasonOf(await ReadAsync(outFolder, "bad.json")));
        var summary = await ReadAsync(outFolder, "summary.txt");
        var overview = summary.IndexOf("OVERVIEW of 4, worst first", StringComparison.Ordinal);
        Assert.InRange(overview, 0, summary.IndexOf("WHAT", StringComparison.Ordinal));
        Assert.All(paths, path => Assert.Contains(Path.GetFileName(path), summary, StringComparison.Ordinal));
    }

    [Fact]
    public async Task Inspect_text_of_several_photos_ends_with_the_overview()
    {
        var run = await CommandLineRun.Of(
            "inspect", Photo("bad.jpg", "refuse"), Photo("good.jpg", "good"), "--server", _server.Address);

        Assert.Equal(1, run.Code);
        var overview = run.Out[run.Out.IndexOf("OVERVIEW", StringComparison.Ordinal)..];
        Assert.Contains("Chalking", overview, StringComparison.Ordinal);
        Assert.InRange(
            overview.IndexOf("good.jpg", StringComparison.Ordinal),
            0,
            overview.IndexOf("bad.jpg", StringComparison.Ordinal));
        Assert.DoesNotContain('\u001b', run.Out);
    }

    [Fact]
    public async Task Inspect_stopped_by_the_user_ends_with_one_word_and_1()
    {
        using var stop = new CancellationTokenSource();
        await using var output = new StopOnFirstLine(stop);
        await using var error = new StringWriter();
        var paths = Enumerable.Range(0, 50).Select(i => Photo($"{i:00}.jpg", $"slow {i}"));

        var code = await Cli.CommandLineProgram.RunAsync(
            ["inspect", .. paths, "--format", "json", "--server", _server.Address],
            TextReader.Null,
            output,
            error,
            stop.Token);

        Assert.Equal(1, code);
        Assert.Equal("Stopped.", error.ToString().Trim());
    }

    private static string NameOf(string line)
    {
        using var json = JsonDocument.Parse(line);
        return json.RootElement.TryGetProperty("photo", out var photo)
            ? photo.GetString()!
            : json.RootElement.GetProperty("photos")[0].GetProperty("displayName").GetString()!;
    }

    private static string? ReasonOf(string line)
    {
        using var json = JsonDocument.Parse(line);
        return json.RootElement.TryGetProperty("error", out var error) ? error.GetProperty("reason").GetString() : null;
    }

    private static Task<string> ReadAsync(string folder, string name) =>
        File.ReadAllTextAsync(Path.Combine(folder, name), TestContext.Current.CancellationToken);

    private string Photo(string name, string script) => _folder.Write(name, script);

    private Task<CommandLineRun> InspectAsync(params string[] args) =>
        CommandLineRun.Of(["inspect", .. args, "--format", "json", "--server", _server.Address]);

    private sealed class StopOnFirstLine(CancellationTokenSource stop) : StringWriter(CultureInfo.InvariantCulture)
    {
        public override Task WriteLineAsync(ReadOnlyMemory<char> buffer, CancellationToken cancellationToken = default)
        {
            stop.Cancel();
            return base.WriteLineAsync(buffer, CancellationToken.None);
        }
    }
}
