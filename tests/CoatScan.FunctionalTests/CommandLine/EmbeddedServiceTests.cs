using System.Text.Json;
using CoatScan.V1;
using Google.Protobuf;

namespace CoatScan.FunctionalTests.CommandLine;

/// <summary>The program with the real service inside it, as a user runs it without a server.</summary>
public sealed class EmbeddedServiceTests : IDisposable
{
    private const string Case =
        """{"evidence":["form.rings","relief.sunk","test.mild_acid.no_effect"],"measurements":{},"externalRef":"lot 1"}""";

    private readonly TempFolder _folder = new();

    private string Data => Path.Combine(_folder.Path, "data");

    public void Dispose() => _folder.Dispose();

    [Fact]
    public async Task Rank_lines_answer_findings_that_a_client_can_read()
    {
        var run = await CommandLineRun.WithInput($"{Case}\n{{\"evidence\":[\"form.ringz\"]}}\n", "rank", "-", "--data", Data);

        Assert.Equal(1, run.Code);
        Assert.Equal(2, run.Lines.Length);
        var finding = JsonParser.Default.Parse<Finding>(run.Lines[0]);
        Assert.Equal("lot 1", finding.ExternalRef);
        Assert.Equal("conditions/water_ring_etch", finding.Conditions[0].Condition);
        using var error = JsonDocument.Parse(run.Lines[1]);
        Assert.Equal("EVIDENCE_UNKNOWN", error.RootElement.GetProperty("error").GetProperty("reason").GetString());
    }

    [Fact]
    public async Task Rank_file_answers_text_with_the_trade_name()
    {
        var run = await CommandLineRun.Of("rank", _folder.Write("case.json", Case), "--data", Data);

        Assert.Equal(0, run.Code);
        Assert.Contains("Water-spot ring etching", run.Out, StringComparison.Ordinal);
        Assert.Contains("FIRST", run.Out, StringComparison.Ordinal);
        Assert.Empty(run.Error);
    }

    [Fact]
    public async Task Inspect_files_that_are_no_photos_answer_their_reasons_in_order()
    {
        string[] paths =
        [
            _folder.Write("empty.jpg", []),
            Path.Combine(_folder.Path, "missing.jpg"),
            _folder.Write("text.jpg", "no photo"),
        ];

        var run = await CommandLineRun.Of(["inspect", .. paths, "--format", "json", "--data", Data]);

        Assert.Equal(1, run.Code);
        var lines = run.Lines.Select(line => JsonDocument.Parse(line).RootElement).ToList();
        Assert.Equal(paths, lines.Select(line => line.GetProperty("photo").GetString()));
        Assert.All(lines, line => Assert.StartsWith(
            line.GetProperty("photo").GetString()!.EndsWith("missing.jpg", StringComparison.Ordinal) ? "FILE_" : "PHOTO_",
            line.GetProperty("error").GetProperty("reason").GetString(),
            StringComparison.Ordinal));
    }

    [Fact]
    public async Task Inspect_unknown_evidence_is_2_before_any_photo_is_sent()
    {
        var run = await CommandLineRun.Of(
            "inspect", _folder.Write("a.jpg", "no photo"), "--evidence", "form.ringz", "--data", Data);

        Assert.Equal(2, run.Code);
        Assert.Empty(run.Out);
        Assert.Contains("form.ringz", run.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Conditions_list_and_card_name_the_same_condition()
    {
        var list = await CommandLineRun.Of("conditions", "--data", Data);
        var card = await CommandLineRun.Of("conditions", "chalking", "--data", Data);
        var json = await CommandLineRun.Of("conditions", "--format", "json", "--data", Data);

        Assert.Equal([0, 0, 0], [list.Code, card.Code, json.Code]);
        Assert.Contains("chalking", list.Out, StringComparison.Ordinal);
        Assert.Contains("Chalking (chalking)", card.Out, StringComparison.Ordinal);
        Assert.All(json.Lines, line => JsonParser.Default.Parse<Condition>(line));
    }

    [Fact]
    public async Task Conditions_unknown_id_is_1_and_says_where_to_look()
    {
        var run = await CommandLineRun.Of("conditions", "rot", "--data", Data);

        Assert.Equal(1, run.Code);
        Assert.Empty(run.Out);
        Assert.Contains("There is no condition 'rot'", run.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Evidence_group_lists_only_that_group()
    {
        var run = await CommandLineRun.Of("evidence", "film", "--format", "json", "--data", Data);

        Assert.Equal(0, run.Code);
        Assert.All(run.Lines, line => Assert.Equal("film", JsonParser.Default.Parse<EvidenceTerm>(line).Group));
    }

    [Fact]
    public async Task Evidence_unknown_group_is_1_and_names_the_groups()
    {
        var run = await CommandLineRun.Of("evidence", "smell", "--data", Data);

        Assert.Equal(1, run.Code);
        Assert.Contains("The groups are form,", run.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Rank_data_folder_that_cannot_be_used_is_3_with_one_sentence()
    {
        var run = await CommandLineRun.Of("rank", "-", "--data", Path.Combine(_folder.Write("taken", "a file"), "data"));

        Assert.Equal(3, run.Code);
        Assert.Single(run.Error.Split('\n', StringSplitOptions.RemoveEmptyEntries));
    }
}
