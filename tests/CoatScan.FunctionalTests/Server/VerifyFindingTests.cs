using CoatScan.FunctionalTests.CommandLine;
using CoatScan.FunctionalTests.Infrastructure;
using CoatScan.V1;
using Microsoft.Data.Sqlite;
using static CoatScan.V1.VerifyFindingResponse.Types;

namespace CoatScan.FunctionalTests.Server;

/// <summary>A stored finding is made again from what is stored, and compared.</summary>
public sealed class VerifyFindingTests : IAsyncLifetime
{
    private RunningServer _server = null!;

    private static CancellationToken Token => TestContext.Current.CancellationToken;

    public async ValueTask InitializeAsync() => _server = await RunningServer.StartAsync();

    public ValueTask DisposeAsync() => _server.DisposeAsync();

    [Fact]
    public async Task Finding_of_any_call_comes_out_the_same()
    {
        var photo = await _server.UploadAsync(Panels.FilmLoss);
        var other = await _server.UploadAsync(Panels.Sound);
        var facts = new PanelFacts
        {
            Evidence = { "gloss.low" },
            Panel = "hood",
            MmPerPx = 0.2,
            AppliedOn = "2026-05-01",
            Readings = new() { FilmUm = { 118, 125.5 }, Gloss60 = 22 },
            Statements = { new Statement { Evidence = "form.uniform_change", SaidBy = "owner" } },
        };
        var zones = new ZonePair { First = Zone(100), Second = Zone(400) };
        Finding[] made =
        [
            await _server.Findings.AnalyzePhotoAsync(new() { Photo = new() { Photo = photo, DisplayName = "one.jpg" }, Facts = facts, CompareZones = zones }),
            await _server.Findings.AnalyzePanelAsync(new() { Photos = { new PhotoInput { Photo = photo }, new PhotoInput { Photo = other } } }),
            await _server.Findings.RankCausesAsync(new() { Facts = facts }),

            // It says that the picture came before; that belongs to the moment.
            await _server.Findings.AnalyzePhotoAsync(new() { Photo = new() { Photo = photo } }),
        ];

        Assert.NotEmpty(made[3].Photos[0].SeenBefore);
        foreach (var finding in made)
        {
            var answer = await _server.Findings.VerifyFindingAsync(new() { Name = finding.Name });
            Assert.Equal(new VerifyFindingResponse { Outcome = Outcome.Same }, answer);
        }
    }

    [Fact]
    public async Task Finding_of_a_batch_comes_out_the_same()
    {
        var photo = await _server.UploadAsync(Panels.FilmLoss);
        var item = BatchSteps.Item("one", "car", photo);
        item.Panel = "left door";
        item.Facts = new PanelFacts { Evidence = { "gloss.low" } };
        var batch = await _server.OpenBatchAsync(item);
        await _server.Batches.StartBatchAsync(new() { Name = batch });
        var finding = (await _server.WatchAsync(batch)).Last(one => one.Item is not null).Item.Finding;

        var answer = await _server.Findings.VerifyFindingAsync(new() { Name = finding });

        Assert.Equal(new VerifyFindingResponse { Outcome = Outcome.Same }, answer);
    }

    [Fact]
    public async Task Finding_whose_photo_is_not_stored_is_not_comparable()
    {
        var inline = await _server.Findings.AnalyzePhotoAsync(new() { Photo = Panels.Input(Panels.NotAPanel) });
        var photo = await _server.UploadAsync(Panels.Sound);
        var deleted = await _server.Findings.AnalyzePhotoAsync(new() { Photo = new() { Photo = photo } });
        await _server.Photos.DeletePhotoAsync(new() { Name = photo });

        foreach (var finding in new[] { inline, deleted })
        {
            var answer = await _server.Findings.VerifyFindingAsync(new() { Name = finding.Name });
            Assert.Equal(Outcome.NotComparable, answer.Outcome);
            Assert.StartsWith($"photos/{finding.Photos[0].Sha256} is not stored", Assert.Single(answer.Obstacles), StringComparison.Ordinal);
        }
    }

    [Theory]
    [InlineData("modelSha256", "It was made with classifier 00; here is ")]
    [InlineData("knowledgeSha256", "It was made with knowledge base 00; here is ")]
    [InlineData("metricSetVersion", "It was made with metric set 00; here is ")]
    [InlineData("serviceVersion", "It was made with service version 00; here is ")]
    public async Task Finding_of_another_version_is_not_comparable_and_says_of_what(string part, string obstacle)
    {
        var finding = await RankAsync();
        await SqlAsync($"UPDATE findings SET document = json_set(document, '$.provenance.{part}', '00')");

        var answer = await _server.Findings.VerifyFindingAsync(new() { Name = finding });

        Assert.Equal(Outcome.NotComparable, answer.Outcome);
        Assert.StartsWith(obstacle, Assert.Single(answer.Obstacles), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Finding_from_before_facts_were_kept_is_not_comparable()
    {
        var finding = await RankAsync();
        await SqlAsync("UPDATE findings SET given = NULL");

        var answer = await _server.Findings.VerifyFindingAsync(new() { Name = finding });

        Assert.Equal(Outcome.NotComparable, answer.Outcome);
        Assert.Equal("What the caller knew was not kept with this finding.", Assert.Single(answer.Obstacles));
    }

    [Fact]
    public async Task Finding_that_was_changed_in_the_store_is_different_and_says_where()
    {
        var finding = await RankAsync();
        await SqlAsync("UPDATE findings SET document = json_set(document, '$.conditions[0].probability', 0.25, '$.externalRef', 'claim 9')");

        var answer = await _server.Findings.VerifyFindingAsync(new() { Name = finding });

        Assert.Equal(Outcome.Different, answer.Outcome);
        Assert.Equal(["conditions[0].probability", "externalRef"], answer.Differences.Select(one => one.Field).Order());
        Assert.Equal("0.25", answer.Differences.Single(one => one.Field.StartsWith("cond", StringComparison.Ordinal)).Stored);
        var reference = answer.Differences.Single(one => one.Field == "externalRef");
        Assert.Equal(("\"claim 9\"", ""), (reference.Stored, reference.Now));
    }

    [Fact]
    public async Task Command_says_same_different_or_why_not()
    {
        var address = _server.GrpcAddress.ToString();
        var finding = await RankAsync();

        var same = await CommandLineRun.Of("verify", finding, "--server", address);
        var byId = await CommandLineRun.Of("verify", finding["findings/".Length..], "--server", address, "--format", "json");
        await SqlAsync("UPDATE findings SET document = json_set(document, '$.externalRef', 'claim 9')");
        var different = await CommandLineRun.Of("verify", finding, "--server", address);
        await SqlAsync("UPDATE findings SET given = NULL");
        var not = await CommandLineRun.Of("verify", finding, "--server", address);
        var unknown = await CommandLineRun.Of("verify", "nothing", "--server", address);

        Assert.Equal((0, $"Same: {finding} comes out the same.\n"), (same.Code, same.Out));
        Assert.Equal(0, byId.Code);
        Assert.Contains("\"OUTCOME_SAME\"", byId.Out, StringComparison.Ordinal);
        Assert.Equal(
            (1, $"Different: {finding} comes out otherwise in 1 places.\n  externalRef: \"claim 9\" was stored, now nothing\n"),
            (different.Code, different.Out));
        Assert.Equal(1, not.Code);
        Assert.StartsWith($"Not comparable: {finding} cannot be made again.\n  What the caller knew", not.Out, StringComparison.Ordinal);
        Assert.Equal((1, "There is no finding findings/nothing.\n"), (unknown.Code, unknown.Error));
    }

    private static PhotoZone Zone(int x) => new() { XPx = x, YPx = 200, WidthPx = 64, HeightPx = 64 };

    private async Task<string> RankAsync() =>
        (await _server.Findings.RankCausesAsync(new() { Facts = new() { Evidence = { "form.domes" } } })).Name;

    private async Task SqlAsync(string sql)
    {
        await using var connection = new SqliteConnection($"Data Source={_server.DatabasePath};Pooling=false");
        await connection.OpenAsync(Token);
        await using var command = connection.CreateCommand();
        command.CommandText = sql;
        await command.ExecuteNonQueryAsync(Token);
    }
}
