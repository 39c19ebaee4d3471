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

    private static string RefOrReason(string line)
    {
        using var json = JsonDocument.Parse(line);
        return json.RootElement.TryGetProperty("error", out var error)
            ? error.GetProperty("reason").GetString()!
            : json.RootElement.GetProperty("externalRef").GetString()!;
    }
}
