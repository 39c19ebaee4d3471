using System.Globalization;
using System.Text.Json;
using CoatScan.FunctionalTests.Infrastructure;
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
    public async Task Inspect_keeps_no_photo_and_says_nothing_of_having_seen_it()
    {
        var photo = _folder.Write("door.jpg", Panels.FilmLoss);

        await CommandLineRun.Of("inspect", photo, "--format", "json", "--data", Data);
        var again = await CommandLineRun.Of("inspect", photo, "--format", "json", "--data", Data);

        Assert.Equal(0, again.Code);
        Assert.Empty(JsonParser.Default.Parse<Finding>(Assert.Single(again.Lines)).Photos[0].SeenBefore);
        Assert.Empty(Directory.GetFiles(Path.Combine(Data, "photos"), "*", SearchOption.AllDirectories));
    }

    // The sums are checked as printed: what a reader adds up by hand must give the printed sum and share.
    [Fact]
    public async Task Rank_explain_lists_weights_that_add_up_to_the_sum()
    {
        var run = await CommandLineRun.Of("rank", _folder.Write("case.json", Case), "--explain", "--data", Data);

        Assert.Equal(0, run.Code);
        var table = run.Out[run.Out.IndexOf("Reasoning.", StringComparison.Ordinal)..].Split('\n')
            .SkipWhile(line => !line.StartsWith("evidence", StringComparison.Ordinal))
            .TakeWhile(line => !line.StartsWith("share", StringComparison.Ordinal))
            .Select(line => line.Split(' ', StringSplitOptions.RemoveEmptyEntries))
            .Where(words => words.Length > 1 && (words[1] is "." || double.TryParse(words[1], CultureInfo.InvariantCulture, out _)))
            .ToList();
        Assert.Equal("sum", table[^1][0]);
        Assert.Contains(table, words => words[0] == "test.mild_acid.no_effect");
        var listed = table.SkipLast(1).Sum(words => words[1] == "." ? 0 : double.Parse(words[1], CultureInfo.InvariantCulture));
        Assert.Equal(double.Parse(table[^1][1], CultureInfo.InvariantCulture), listed, 0.005 * table.Count);
        Assert.Contains("Tests, most useful first", run.Out, StringComparison.Ordinal);
    }

    [Fact]
    public async Task SprayDay_answers_text_and_json()
    {
        string[] day = ["spray-day", "--air", "8", "--humidity", "90", "--finish", "lacquer", "--data", Data];
        var hours = _folder.Write("hours.json", """[{"hour":"14:00","airC":20,"humidityPercent":60}]""");

        var text = await CommandLineRun.Of([.. day, "--forecast", hours]);
        var json = await CommandLineRun.Of([.. day, "--format", "json"]);

        Assert.Equal((0, 0), (text.Code, json.Code));
        Assert.Contains("Do not spray.", text.Out, StringComparison.Ordinal);
        Assert.Contains("It could become possible at 14:00.", text.Out, StringComparison.Ordinal);
        Assert.Equal(SprayVerdict.DoNotSpray, JsonParser.Default.Parse<SprayPlan>(Assert.Single(json.Lines)).Verdict);
    }

    [Theory]
    [InlineData("glue", null, "finish must be one of")]
    [InlineData("lacquer", "no json", "is no list of hours")]
    [InlineData("lacquer", "{}", "must hold a JSON list")]
    public async Task SprayDay_bad_input_is_1_with_one_sentence(string finish, string? forecast, string complaint)
    {
        string[] day = ["spray-day", "--air", "20", "--humidity", "60", "--finish", finish, "--data", Data];

        var run = await CommandLineRun.Of(forecast is null ? day : [.. day, "--forecast", _folder.Write("hours.json", forecast)]);

        Assert.Equal(1, run.Code);
        Assert.Empty(run.Out);
        Assert.Contains(complaint, run.Error, StringComparison.Ordinal);
    }

    // The demo photos show most visual classes; their findings are as long as findings of a photo get.
    [Theory]
    [InlineData("en")]
    [InlineData("de")]
    [InlineData("es")]
    public async Task Inspect_writes_finding_sheets_of_two_pages_and_cards_of_one(string language)
    {
        var photos = Path.Combine(AppContext.BaseDirectory, "photos");

        var run = await CommandLineRun.Of(
            "inspect", photos, "--data", Data, "--format", "pdf", "--sheets", "finding,customer,job-card", "--language", language, "--out", _folder.Path + "/sheets");

        Assert.Equal((0, ""), (run.Code, run.Error));
        var sheets = Directory.GetFiles(_folder.Path + "/sheets", "*.pdf", SearchOption.AllDirectories);
        Assert.True(sheets.Length > 36, $"{sheets.Length} sheets");
        foreach (var path in sheets.Where(one => !one.EndsWith("index.pdf", StringComparison.Ordinal) && !one.EndsWith("photo-guide.pdf", StringComparison.Ordinal)))
        {
            using var sheet = UglyToad.PdfPig.PdfDocument.Open(path);
            var isCard = path.Contains("customer", StringComparison.Ordinal) || path.Contains("job-card", StringComparison.Ordinal);
            Assert.True(sheet.NumberOfPages <= (isCard ? 1 : 2), $"{path} has {sheet.NumberOfPages} pages");
        }
    }

    [Theory]
    [InlineData("de", "AUSSEHEN", "Kreiden", "Familie: Alterung.", "Es war schon vorher da")]
    [InlineData("es", "ASPECTO", "Caleo", "Familia: envejecimiento.", "Ya estaba antes")]
    public async Task Conditions_one_is_in_the_language_asked_for(string language, params string[] parts)
    {
        var run = await CommandLineRun.Of("conditions", "chalking", "--data", Data, "--language", language);

        Assert.Equal((0, ""), (run.Code, run.Error));
        Assert.All(parts, part => Assert.Contains(part, run.Out, StringComparison.Ordinal));
        Assert.DoesNotMatch(@"\b(the|and|of|with|not|is|are|from|when|until|paint|which|it)\b", run.Out);
    }

    [Fact]
    public async Task Conditions_one_reads_as_a_page()
    {
        var run = await CommandLineRun.Of("conditions", "chalking", "--data", Data);

        Assert.Equal(0, run.Code);
        Assert.All(
            ["Also called", "LOOK", "FOR", "AGAINST", "NOT", "TEST", "CAUSE", "WHEN", "DO", "1. ", "NEVER", "SAFETY", "PREVENT", "RATED", "SOURCE"],
            part => Assert.Contains(part, run.Out, StringComparison.Ordinal));
        Assert.DoesNotContain("_", run.Out, StringComparison.Ordinal);
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
