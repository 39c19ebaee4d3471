using System.Net;
using CoatScan.FunctionalTests.Infrastructure;
using Grpc.Health.V1;
using Grpc.Reflection.V1Alpha;

namespace CoatScan.FunctionalTests.Server;

public sealed class OperationsTests(SharedServer shared)
{
    [Fact]
    public async Task Health_running_server_serves()
    {
        var health = new Health.HealthClient(shared.Server.Channel);
        var status = HealthCheckResponse.Types.ServingStatus.Unknown;
        // The health publisher runs for the first time a few seconds after the start.
        for (var i = 0; i < 40 && status != HealthCheckResponse.Types.ServingStatus.Serving; i++)
        {
            status = (await health.CheckAsync(new HealthCheckRequest())).Status;
            await Task.Delay(250, TestContext.Current.CancellationToken);
        }

        Assert.Equal(HealthCheckResponse.Types.ServingStatus.Serving, status);
    }

    [Theory]
    [InlineData("/health/live")]
    [InlineData("/health/ready")]
    public async Task Health_over_http_is_ok(string path)
    {
        using var response = await shared.Server.Http.GetAsync(path, TestContext.Current.CancellationToken);

        Assert.Equal(HttpStatusCode.OK, response.StatusCode);
    }

    [Fact]
    public async Task Reflection_lists_our_services()
    {
        var token = TestContext.Current.CancellationToken;
        var client = new ServerReflection.ServerReflectionClient(shared.Server.Channel);
        using var call = client.ServerReflectionInfo(cancellationToken: token);
        await call.RequestStream.WriteAsync(new ServerReflectionRequest { ListServices = "" }, token);
        Assert.True(await call.ResponseStream.MoveNext(token));
        var names = call.ResponseStream.Current.ListServicesResponse.Service.Select(service => service.Name).ToList();
        await call.RequestStream.CompleteAsync();

        Assert.Contains("coatscan.v1.FindingService", names);
        Assert.Contains("coatscan.v1.KnowledgeService", names);
    }

    [Fact]
    public async Task Metrics_count_photos_stages_verdicts_and_refusals()
    {
        await shared.Server.Findings.AnalyzePhotoAsync(new() { Photo = Panels.Input(Panels.Sound) });
        await Errors.OfAsync(() => shared.Server.Findings.AnalyzePhotoAsync(new() { Photo = Panels.Input("no"u8.ToArray()) }));

        var text = await shared.Server.Http.GetStringAsync("/metrics", TestContext.Current.CancellationToken);

        Assert.Contains("coatscan_photos_total", text, StringComparison.Ordinal);
        Assert.Matches("coatscan_stage_duration_seconds_count\\{[^}]*stage=\"classify\"", text);
        Assert.Matches("coatscan_verdicts_total\\{[^}]*verdict=", text);
        Assert.Matches("coatscan_refusals_total\\{[^}]*reason=\"PHOTO_FORMAT_NOT_ALLOWED\"", text);
    }

    [Fact]
    public async Task Traces_have_one_span_a_stage()
    {
        var stages = new List<string>();
        using var listener = new System.Diagnostics.ActivityListener
        {
            ShouldListenTo = source => source.Name == Inspection.InspectionTelemetry.SourceName,
            Sample = (ref System.Diagnostics.ActivityCreationOptions<System.Diagnostics.ActivityContext> _) =>
                System.Diagnostics.ActivitySamplingResult.AllData,
            ActivityStopped = activity =>
            {
                lock (stages)
                {
                    stages.Add(activity.OperationName);
                }
            },
        };
        System.Diagnostics.ActivitySource.AddActivityListener(listener);

        await shared.Server.Findings.AnalyzePhotoAsync(new() { Photo = Panels.Input(Panels.Sound) });

        lock (stages)
        {
            Assert.All(new[] { "normalize", "measure", "classify", "diagnose" }, stage => Assert.Contains(stage, stages));
        }
    }

    [Fact]
    public async Task OpenApi_document_served_is_the_one_checked_in()
    {
        var served = await shared.Server.Http.GetStringAsync("/openapi/v1.json", TestContext.Current.CancellationToken);
        var checkedIn = await File.ReadAllTextAsync(
            Path.Combine(AppContext.BaseDirectory, "openapi.json"),
            TestContext.Current.CancellationToken);

        Assert.Contains("/v1/findings:analyze", served, StringComparison.Ordinal);
        Assert.Equal(checkedIn.ReplaceLineEndings("\n").Trim(), served.ReplaceLineEndings("\n").Trim());
    }

    [Fact]
    public async Task KnowledgeService_lists_the_whole_catalog()
    {
        var conditions = await shared.Server.Knowledge.ListConditionsAsync(new() { PageSize = 500 });
        var evidence = await shared.Server.Knowledge.ListEvidenceAsync(new());
        var forms = await shared.Server.Knowledge.ListEvidenceAsync(new() { Group = "form" });

        Assert.Equal(44, conditions.Conditions.Count);
        Assert.Equal(176, conditions.Conditions.Sum(condition => condition.Causes.Count));
        Assert.All(conditions.Conditions, condition => Assert.NotEmpty(condition.SourceKeys));
        Assert.Empty(evidence.NextPageToken);
        Assert.NotEmpty(forms.Evidence);
        Assert.All(forms.Evidence, term => Assert.StartsWith("form.", term.Id, StringComparison.Ordinal));
    }

    [Fact]
    public async Task KnowledgeService_pages_visit_every_condition_once()
    {
        var seen = new List<string>();
        var token = "";
        do
        {
            var page = await shared.Server.Knowledge.ListConditionsAsync(new() { PageSize = 10, PageToken = token });
            seen.AddRange(page.Conditions.Select(condition => condition.Name));
            token = page.NextPageToken;
        }
        while (token.Length > 0);

        Assert.Equal(44, seen.Distinct().Count());
        Assert.Equal(44, seen.Count);
    }
}
