using System.Text.Json;

namespace CoatScan.FunctionalTests.CommandLine;

/// <summary><c>rank</c> against a server with made-up findings.</summary>
public sealed class RankTests : IAsyncLifetime
{
    private const string Good = """{"evidence":["form.rings"],"measurements":{"filmUm":[118,125],"gloss60":22}}""";

    private readonly TempFolder _folder = new();
    private FakeServer _server = null!;

    public async ValueTask InitializeAsync() => _server = await FakeServer.StartAsync();

    public async ValueTask DisposeAsync()
    {
        await _server.DisposeAsync();
        _folder.Dispose();
    }

    [Fact]
    public async Task Rank_lines_with_bad_ones_between_answers_one_line_each_in_order()
    {
        var input = string.Join('\n',
            """{"evidence":["form.rings"],"externalRef":"lot 1"}""",
            "no json",
            """{"evidence":["form.unknown"]}""",
            "",
            """{"evidence":["form.rings"],"externalRef":"lot 2"}""",
            """{"evidence":["form.rings"],"mood":"good"}""",
            "[]",
            """{"evidence":["form.rings"],"externalRef":"lot 3"}""");

        var run = await CommandLineRun.WithInput(input, "rank", "-", "--server", _server.Address);

        Assert.Equal(1, run.Code);
        Assert.Equal(
            ["lot 1", "FIELD_INVALID", "EVIDENCE_UNKNOWN", "lot 2", "FIELD_INVALID", "FIELD_INVALID", "lot 3"],
            run.Lines.Select(RefOrReason));
        Assert.Contains("'mood'", run.Lines[4], StringComparison.Ordinal);
        Assert.StartsWith("{\"error\":", run.Lines[1], StringComparison.Ordinal);
    }

    [Fact]
    public async Task Rank_many_lines_keeps_the_order()
    {
        var input = string.Join('\n', Enumerable.Range(0, 200).Select(i => $$"""{"externalRef":"{{i}}"}"""));

        var run = await CommandLineRun.WithInput(input, "rank", "-", "--server", _server.Address);

        Assert.Equal(0, run.Code);
        Assert.Equal(Enumerable.Range(0, 200).Select(i => $"{i}"), run.Lines.Select(RefOrReason));
    }

    [Fact]
    public async Task Rank_nothing_on_standard_input_answers_nothing()
    {
        var run = await CommandLineRun.WithInput("", "rank", "-", "--server", _server.Address);

        Assert.Equal(0, run.Code);
        Assert.Empty(run.Out);
    }

    [Fact]
    public async Task Rank_files_answer_text_and_name_the_case()
    {
        var run = await CommandLineRun.Of("rank", _folder.Write("a.json", Good), "--server", _server.Address);

        Assert.Equal(0, run.Code);
        Assert.Contains("a.json", run.Out, StringComparison.Ordinal);
        Assert.Contains("Chalking, not yet certain: likely (71 %).", run.Out, StringComparison.Ordinal);
        Assert.Equal([118, 125], _server.Findings.LastFacts!.Readings.FilmUm);
        Assert.False(_server.Findings.LastFacts.Readings.HasDeltaE00);
    }

    [Fact]
    public async Task Rank_missing_file_between_good_ones_fails_alone()
    {
        var missing = Path.Combine(_folder.Path, "missing.json");

        var run = await CommandLineRun.Of(
            "rank", _folder.Write("a.json", Good), missing, _folder.Write("b.json", Good),
            "--format", "json", "--server", _server.Address);

        Assert.Equal(1, run.Code);
        Assert.Equal(["", "FILE_NOT_FOUND", ""], run.Lines.Select(RefOrReason));
        Assert.Contains("\"case\":", run.Lines[1], StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("html", "<!DOCTYPE html>")]
    [InlineData("pdf", "%PDF-")]
    public async Task Rank_writes_a_sheet_a_case_with_an_index_and_a_table(string format, string start)
    {
        var missing = Path.Combine(_folder.Path, "missing.json");
        var folder = Path.Combine(_folder.Path, "out");

        var run = await CommandLineRun.Of(
            "rank", _folder.Write("a.json", Good), missing, "--format", format, "--out", folder, "--server", _server.Address);

        Assert.Equal(1, run.Code);
        var sheet = Path.Combine(folder, "a." + format);
        Assert.StartsWith($"{sheet}: Chalking", run.Lines[0], StringComparison.Ordinal);
        string[] files = ["a." + format, "a.json", "findings.csv", "index." + format, "missing.json", "photo-guide." + format, "summary.txt"];
        Assert.Equal(
            files.Order(StringComparer.Ordinal), Directory.GetFiles(folder).Select(path => Path.GetFileName(path)!).Order(StringComparer.Ordinal));
        Assert.StartsWith(start, await File.ReadAllTextAsync(sheet, TestContext.Current.CancellationToken), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Rank_writes_sheets_of_lines_in_the_language_asked_for()
    {
        var folder = Path.Combine(_folder.Path, "out");

        var run = await CommandLineRun.WithInput(
            Good, "rank", "-", "--format", "html", "--language", "de", "--out", folder, "--server", _server.Address);

        Assert.Equal((0, ""), (run.Code, run.Error));
        var sheet = await File.ReadAllTextAsync(Path.Combine(folder, "line 1.html"), TestContext.Current.CancellationToken);
        Assert.Contains("lang=\"de\"", sheet, StringComparison.Ordinal);
        Assert.Contains("Kreiden", sheet, StringComparison.Ordinal);
        Assert.DoesNotContain("Chalking", sheet, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Rank_csv_writes_a_head_and_a_row_a_case()
    {
        var run = await CommandLineRun.Of("rank", _folder.Write("a.json", Good), "--format", "csv", "--server", _server.Address);

        Assert.Equal((0, ""), (run.Code, run.Error));
        Assert.StartsWith("name,panel,", run.Lines[0], StringComparison.Ordinal);
        Assert.Equal(2, run.Lines.Length);
    }

    [Theory]
    [InlineData("--format pdf writes files: name a folder for them with --out.", "--format", "pdf")]
    [InlineData("--sheets writes files: name a folder for them with --out.", "--sheets", "job-card")]
    [InlineData("--language takes en, de or es, not 'fr'.", "--language", "fr")]
    public async Task Rank_with_options_that_do_not_fit_says_what_to_do(string said, params string[] options)
    {
        var run = await CommandLineRun.Of(["rank", _folder.Write("a.json", Good), .. options, "--server", _server.Address]);

        Assert.Equal((2, ""), (run.Code, run.Out));
        Assert.Contains(said, run.Error, StringComparison.Ordinal);
    }

    private static string RefOrReason(string line)
    {
        using var json = JsonDocument.Parse(line);
        return json.RootElement.TryGetProperty("error", out var error)
            ? error.GetProperty("reason").GetString()!
            : json.RootElement.GetProperty("externalRef").GetString()!;
    }
}
