using System.Net.Http.Json;
using System.Text.Json;
using CoatScan.FunctionalTests.Infrastructure;
using CoatScan.V1;

namespace CoatScan.FunctionalTests.Server;

public sealed class FindingResourceTests(SharedServer shared)
{
    private readonly FindingService.FindingServiceClient _findings = shared.Server.Findings;

    [Fact]
    public async Task GetFinding_stored_finding_equals_the_answer()
    {
        var made = await RankAsync("get");

        Assert.Equal(made, await _findings.GetFindingAsync(new GetFindingRequest { Name = made.Name }));
    }

    [Fact]
    public async Task GetFinding_as_json_has_the_names_of_the_contract()
    {
        var made = await RankAsync("json");

        var json = await shared.Server.Http.GetFromJsonAsync<JsonElement>(
            $"/v1/{made.Name}",
            TestContext.Current.CancellationToken);

        Assert.Equal(made.Name, json.GetProperty("name").GetString());
        Assert.StartsWith("VERDICT_", json.GetProperty("verdict").GetString(), StringComparison.Ordinal);
        Assert.StartsWith("VERDICT_", json.GetProperty("partyVerdict").GetString(), StringComparison.Ordinal);
        string[] names =
        [
            "createTime", "verdictReasons", "photos", "visualClasses", "measurements", "ratings", "evidence", "conditions",
            "causes", "parties", "lookAlikes", "nextTests", "contradictions", "remedy", "timing", "cautions",
            "customerText", "careAdvice", "provenance",
        ];
        Assert.All(names, name => Assert.True(json.TryGetProperty(name, out _), name));
        Assert.True(json.GetProperty("remedy").TryGetProperty("mustNot", out _));
        Assert.True(json.GetProperty("conditions")[0].GetProperty("evidence")[0].TryGetProperty("weightLog", out _));
    }

    [Fact]
    public async Task ListFindings_pages_visit_every_finding_once_newest_first()
    {
        await using var server = await RunningServer.StartAsync();
        var made = new List<string>();
        for (var i = 0; i < 7; i++)
        {
            made.Add((await server.Findings.RankCausesAsync(Request($"list {i}"))).Name);
        }

        var seen = new List<string>();
        var token = "";
        do
        {
            var page = await server.Findings.ListFindingsAsync(new ListFindingsRequest { PageSize = 3, PageToken = token });
            Assert.InRange(page.Findings.Count, 1, 3);
            seen.AddRange(page.Findings.Select(finding => finding.Name));
            token = page.NextPageToken;
        }
        while (token.Length > 0);

        made.Reverse();
        Assert.Equal(made, seen);
    }

    [Fact]
    public async Task DeleteFinding_finding_is_gone()
    {
        var made = await RankAsync("delete");

        await _findings.DeleteFindingAsync(new DeleteFindingRequest { Name = made.Name });

        var status = await Errors.OfAsync(() => _findings.GetFindingAsync(new GetFindingRequest { Name = made.Name }));
        Assert.Equal("FINDING_NOT_FOUND", status.Info().Reason);
    }

    private async Task<Finding> RankAsync(string reference) => await _findings.RankCausesAsync(Request(reference));

    private static RankCausesRequest Request(string reference) => new()
    {
        Facts = new PanelFacts
        {
            Evidence = { "form.uniform_change", "relief.flat", "gloss.low", "color.dusty_own_color", "test.cloth_rub.powder" },
            Readings = new Readings { FilmUm = { 118, 125, 110 }, Gloss60 = 22 },
            ExternalRef = reference,
        },
    };
}
