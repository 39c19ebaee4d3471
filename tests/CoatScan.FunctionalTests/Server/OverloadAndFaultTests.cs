using System.Net;
using CoatScan.FunctionalTests.Infrastructure;
using CoatScan.V1;
using Google.Rpc;
using Grpc.Core;
using Microsoft.Data.Sqlite;

namespace CoatScan.FunctionalTests.Server;

public sealed class OverloadAndFaultTests
{
    [Fact]
    public async Task AnalyzePhoto_all_workers_busy_is_refused_with_a_delay_in_grpc_and_json()
    {
        await using var server = await RunningServer.StartAsync(
            ("CoatScan:Analysis:Workers", "1"),
            ("CoatScan:Analysis:QueueLength", "0"));
        var photo = Panels.Large();
        var request = new AnalyzePhotoRequest { Photo = Panels.Input(photo) };
        var json = $$$"""{"photo":{"content":"{{{Convert.ToBase64String(photo)}}}"}}""";

        var calls = Enumerable.Range(0, 6).Select(async _ =>
        {
            try
            {
                await server.Findings.AnalyzePhotoAsync(request);
                return null;
            }
            catch (RpcException e)
            {
                return e;
            }
        }).ToList();
        var posts = Enumerable.Range(0, 4).Select(_ => server.Http.PostAsync(
            "/v1/findings:analyze",
            new StringContent(json, null, "application/json"),
            TestContext.Current.CancellationToken)).ToList();
        var refused = (await Task.WhenAll(calls)).OfType<RpcException>().ToList();
        var answers = await Task.WhenAll(posts);

        Assert.NotEmpty(refused);
        Assert.All(refused, e =>
        {
            Assert.Equal(StatusCode.ResourceExhausted, e.StatusCode);
            Assert.Equal("SERVER_BUSY", e.GetRpcStatus()!.Info().Reason);
            Assert.True(e.GetRpcStatus()!.GetDetail<RetryInfo>()!.RetryDelay.ToTimeSpan() > TimeSpan.Zero);
            Assert.Contains(e.Trailers, entry => entry.Key == "grpc-retry-pushback-ms");
        });
        var busy = answers.First(answer => answer.StatusCode == HttpStatusCode.TooManyRequests);
        var body = await busy.Content.ReadAsStringAsync(TestContext.Current.CancellationToken);
        Assert.Contains("\"SERVER_BUSY\"", body, StringComparison.Ordinal);
        Assert.Contains("google.rpc.RetryInfo", body, StringComparison.Ordinal);
    }

    [Fact]
    public async Task RankCauses_locked_store_is_unavailable_in_grpc_and_json()
    {
        await using var server = await RunningServer.StartAsync();
        await using var connection = new SqliteConnection($"Data Source={server.DatabasePath};Pooling=false");
        await connection.OpenAsync(TestContext.Current.CancellationToken);
        await using var hold = connection.CreateCommand();
        hold.CommandText = "BEGIN EXCLUSIVE";
        await hold.ExecuteNonQueryAsync(TestContext.Current.CancellationToken);

        var grpc = Errors.OfAsync(() => server.Findings.RankCausesAsync(new() { Facts = new PanelFacts { Evidence = { "form.domes" } } }));
        var json = Errors.OfJsonAsync(
            server.Http, HttpMethod.Post, "/v1/findings:rank", """{"facts":{"evidence":["form.domes"]}}""", HttpStatusCode.ServiceUnavailable);

        Assert.Equal("STORAGE_UNAVAILABLE", (await grpc).Info().Reason);
        Assert.NotNull((await grpc).GetDetail<RetryInfo>());
        Assert.Equal("STORAGE_UNAVAILABLE", (await json).Reason);
    }

    [Fact]
    public async Task GetFinding_fault_of_ours_is_internal_and_tells_nothing_but_the_trace()
    {
        await using var server = await RunningServer.StartAsync();
        var made = await server.Findings.RankCausesAsync(new() { Facts = new PanelFacts { Evidence = { "form.domes" } } });
        await using (var connection = new SqliteConnection($"Data Source={server.DatabasePath};Pooling=false"))
        {
            await connection.OpenAsync(TestContext.Current.CancellationToken);
            await using var damage = connection.CreateCommand();
            damage.CommandText = "ALTER TABLE findings RENAME TO mislaid";
            await damage.ExecuteNonQueryAsync(TestContext.Current.CancellationToken);
        }

        var status = await Errors.OfAsync(() => server.Findings.GetFindingAsync(new() { Name = made.Name }));
        var (reason, body) = await Errors.OfJsonAsync(
            server.Http, HttpMethod.Get, $"/v1/{made.Name}", null, HttpStatusCode.InternalServerError);

        Assert.Equal((int)Code.Internal, status.Code);
        Assert.Equal("INTERNAL_ERROR", status.Info().Reason);
        Assert.NotEmpty(status.Info().Metadata["trace_id"]);
        Assert.DoesNotContain("table", status.ToString(), StringComparison.OrdinalIgnoreCase);
        Assert.Equal("INTERNAL_ERROR", reason);
        Assert.DoesNotContain("table", body.ToString(), StringComparison.OrdinalIgnoreCase);
    }

    [Fact]
    public async Task Call_while_stopping_is_refused_with_draining_in_grpc_and_json()
    {
        await using var server = await RunningServer.StartAsync();
        await server.Knowledge.GetServerInfoAsync(new());
        var answers = new TaskCompletionSource<(string Grpc, string Json)>();
        server.Application.Lifetime.ApplicationStopping.Register(() =>
        {
            // The stop waits for this callback, so the calls meet a server that is stopping and still listens.
            var asked = Task.Run(async () =>
            {
                var status = await Errors.OfAsync(() => server.Knowledge.GetServerInfoAsync(new()));
                var (reason, _) = await Errors.OfJsonAsync(
                    server.Http, HttpMethod.Get, "/v1/serverInfo", null, HttpStatusCode.ServiceUnavailable);
                return (status.Info().Reason, reason);
            });
            asked.ContinueWith(
                done => answers.TrySetFromTask(done),
                CancellationToken.None,
                TaskContinuationOptions.ExecuteSynchronously,
                TaskScheduler.Default);
            ((IAsyncResult)asked).AsyncWaitHandle.WaitOne(TimeSpan.FromSeconds(20));
        });

        await server.Application.StopAsync(TestContext.Current.CancellationToken);

        Assert.Equal(("DRAINING", "DRAINING"), await answers.Task);
    }

    [Fact]
    public async Task AnalyzePhoto_deadline_passed_ends_the_call()
    {
        await using var server = await RunningServer.StartAsync();

        var exception = await Assert.ThrowsAsync<RpcException>(async () => await server.Findings.AnalyzePhotoAsync(
            new AnalyzePhotoRequest { Photo = Panels.Input(Panels.Large()) },
            deadline: TimeProvider.System.GetUtcNow().AddMilliseconds(60).UtcDateTime));

        Assert.Equal(StatusCode.DeadlineExceeded, exception.StatusCode);
        var list = await server.Findings.ListFindingsAsync(new());
        Assert.Empty(list.Findings);
    }
}
