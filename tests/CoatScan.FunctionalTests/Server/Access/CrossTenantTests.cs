using System.Net;
using System.Text.RegularExpressions;
using CoatScan.Findings;
using CoatScan.FunctionalTests.Infrastructure;
using CoatScan.V1;
using Google.Api;
using Google.Protobuf;
using Google.Protobuf.Reflection;
using Grpc.Core;
using Microsoft.AspNetCore.Routing;

namespace CoatScan.FunctionalTests.Server.Access;

/// <summary>
/// What one tenant has is not there for another one, for every rpc of the contract: its requests are made from its
/// descriptor, with the other tenant's names wherever a resource is named.
/// </summary>
public sealed partial class CrossTenantTests : IAsyncLifetime
{
    // Of the service as a whole; nothing of them belongs to a tenant.
    private static readonly string[] NotOfTenants = ["coatscan.example/Condition"];

    private RunningServer _server = null!;
    private KeyedCaller _north = null!;
    private KeyedCaller _south = null!;
    private Dictionary<string, string> _ofNorth = null!;

    public async ValueTask InitializeAsync()
    {
        _server = await KeyedServer.StartAsync();
        _north = await _server.AsAsync("north", AccessScope.Admin);
        _south = await _server.AsAsync("south", AccessScope.Admin);
        var photo = await _north.Photos.SendAsync(Uploads.Of(Panels.Sound));
        var finding = await _north.Findings.AnalyzePhotoAsync(new() { Photo = new() { Photo = photo.Name } });
        var batch = await _north.Batches.CreateBatchAsync(new() { BatchId = "lot-north" });
        await _north.Batches.AddBatchItemsAsync(new() { Name = batch.Name, Items = { BatchSteps.Item("one", "car", photo.Name) } });
        _ofNorth = new()
        {
            ["coatscan.example/Photo"] = photo.Name,
            ["coatscan.example/Finding"] = finding.Name,
            ["coatscan.example/Batch"] = batch.Name,
        };
    }

    public async ValueTask DisposeAsync()
    {
        _north.Dispose();
        _south.Dispose();
        await _server.DisposeAsync();
    }

    [Fact]
    public async Task Rpc_that_names_a_resource_of_another_tenant_finds_nothing()
    {
        var tried = 0;
        foreach (var method in EveryCall.Services().SelectMany(service => service.Methods))
        {
            var request = method.InputType.Parser.ParseFrom(ReadOnlySpan<byte>.Empty);
            if (!Fill(request))
            {
                continue;
            }

            tried++;
            var error = await CallAsync(_south, method, request);
            Assert.True(
                error is { Code: (int)Google.Rpc.Code.NotFound },
                $"{method.FullName} {request}: {error}");
            Assert.EndsWith("_NOT_FOUND", error.Info().Reason, StringComparison.Ordinal);
        }

        Assert.True(tried >= 16, $"{tried} rpcs");
    }

    [Fact]
    public async Task Route_that_names_a_resource_of_another_tenant_finds_nothing()
    {
        var tried = 0;
        foreach (var route in EveryCall.Of(_server).Where(one => one.Rpc() is null && !one.IsOpen()))
        {
            // Reading before deleting: what is deleted by mistake is found by the last assertion.
            var method = route.Metadata.GetMetadata<HttpMethodMetadata>()?.HttpMethods[0];
            var path = NamedRoute().Replace(route.RoutePattern.RawText!, match => IdsOfNorth[match.Groups["kind"].Value]);
            if (path == route.RoutePattern.RawText || method is not ("GET" or "DELETE"))
            {
                continue;
            }

            tried++;
            using var request = new HttpRequestMessage(new HttpMethod(method), path.StartsWith('/') ? path : "/" + path);
            using var response = await _south.Http.SendAsync(request, TestContext.Current.CancellationToken);
            Assert.True(response.StatusCode == HttpStatusCode.NotFound, $"{method} {path}: {response.StatusCode}");
        }

        Assert.True(tried >= 16, $"{tried} routes");
        Assert.Single((await _north.Findings.ListFindingsAsync(new())).Findings);
    }

    [Fact]
    public async Task Answer_about_another_tenants_resource_is_that_about_none()
    {
        foreach (var method in EveryCall.Services().SelectMany(service => service.Methods))
        {
            var theirs = method.InputType.Parser.ParseFrom(ReadOnlySpan<byte>.Empty);
            var none = method.InputType.Parser.ParseFrom(ReadOnlySpan<byte>.Empty);
            if (!Fill(theirs))
            {
                continue;
            }

            var nobodys = _ofNorth.ToDictionary(one => one.Key, one => one.Value[..^4] + "0000");
            Fill(none, nobodys);
            var (first, second) = (await CallAsync(_south, method, theirs), await CallAsync(_south, method, none));
            var message = first!.Message;
            foreach (var (type, name) in _ofNorth)
            {
                message = message.Replace(name[(name.IndexOf('/', StringComparison.Ordinal) + 1)..], nobodys[type].Split('/')[1], StringComparison.Ordinal);
            }

            Assert.Equal(second!.Message, message);
            Assert.Equal(second.Code, first.Code);
            Assert.Equal(second.Info().Reason, first.Info().Reason);
            Assert.Equal(second.Info().Metadata.Keys.Order(), first.Info().Metadata.Keys.Order());
        }
    }

    [Fact]
    public async Task Lists_of_another_tenant_are_empty()
    {
        Assert.Empty((await _south.Findings.ListFindingsAsync(new())).Findings);
        Assert.Empty((await _south.Batches.ListBatchesAsync(new())).Batches);
        Assert.Single((await _north.Findings.ListFindingsAsync(new())).Findings);
        Assert.Single((await _north.Batches.ListBatchesAsync(new())).Batches);
    }

    [Fact]
    public async Task Names_of_one_tenant_are_free_for_another_and_its_pictures_are_not_seen_before()
    {
        var batch = await _south.Batches.CreateBatchAsync(new() { BatchId = "lot-north" });
        var photo = await _south.Photos.SendAsync(Uploads.Of(Panels.Sound));
        var finding = await _south.Findings.AnalyzePhotoAsync(new() { Photo = new() { Photo = photo.Name } });
        var similar = await _south.Photos.FindSimilarPhotosAsync(new() { Name = photo.Name });

        Assert.Equal(0, batch.ItemCount);
        Assert.Empty(finding.Photos[0].SeenBefore);
        Assert.DoesNotContain(similar.Photos, one => one.Findings.Contains(_ofNorth["coatscan.example/Finding"]));
    }

    [Fact]
    public async Task Page_token_of_one_tenant_opens_nothing_of_it_to_another()
    {
        for (var i = 0; i < 2; i++)
        {
            await _north.Findings.RankCausesAsync(new() { Facts = new() { Evidence = { "form.domes" } } });
        }

        var page = await _north.Findings.ListFindingsAsync(new() { PageSize = 1 });
        var stolen = await _south.Findings.ListFindingsAsync(new() { PageSize = 1, PageToken = page.NextPageToken });

        Assert.NotEmpty(page.NextPageToken);
        Assert.Empty(stolen.Findings);
    }

    [Fact]
    public async Task Request_id_of_one_tenant_replays_nothing_to_another()
    {
        var request = new RankCausesRequest { RequestId = "5b0f6b1a-6f0e-4c8e-9f53-4d5b0f6b1a99", Facts = new() { Evidence = { "form.domes" } } };

        var first = await _north.Findings.RankCausesAsync(request);
        var second = await _south.Findings.RankCausesAsync(request);

        Assert.NotEqual(first.Name, second.Name);
    }

    /// <summary>The error of a call, or of the one answer in its stream; null if there is none.</summary>
    private static async Task<Google.Rpc.Status?> CallAsync(KeyedCaller caller, MethodDescriptor method, IMessage request)
    {
        var (messages, error) = await EveryCall.AnswerAsync(
            caller.Channel, $"/{method.Service.FullName}/{method.Name}", request.ToByteArray());
        if (error is not null)
        {
            return error.GetRpcStatus() ?? new Google.Rpc.Status { Code = (int)error.StatusCode };
        }

        var answer = method.OutputType.Parser.ParseFrom(Assert.Single(messages));
        return method.OutputType.FindFieldByName("error")?.Accessor.GetValue(answer) as Google.Rpc.Status;
    }

    private bool Fill(IMessage message) => Fill(message, _ofNorth);

    private Dictionary<string, string> IdsOfNorth => new()
    {
        ["findings"] = _ofNorth["coatscan.example/Finding"],
        ["photos"] = _ofNorth["coatscan.example/Photo"],
        ["batches"] = _ofNorth["coatscan.example/Batch"],
        ["lanes"] = "lanes/lot-north",
    };

    [GeneratedRegex(@"(?<kind>findings|photos|batches|lanes)/\{[^}]*\}")]
    private static partial Regex NamedRoute();

    /// <summary>Puts names wherever a field refers to a resource, and what else such a message needs.</summary>
    /// <returns>Whether there was such a field.</returns>
    private static bool Fill(IMessage message, IReadOnlyDictionary<string, string> names)
    {
        var named = false;
        foreach (var field in message.Descriptor.Fields.InFieldNumberOrder())
        {
            if (field.GetOptions()?.GetExtension(FieldBehaviorExtensions.FieldBehavior).Contains(FieldBehavior.OutputOnly) is true)
            {
                continue;
            }

            var type = field.GetOptions()?.GetExtension(ResourceExtensions.ResourceReference)?.Type ?? "";
            if (type.Length > 0 && !NotOfTenants.Contains(type))
            {
                named |= Put(message, field, names[type]);
            }
            else if (field.FieldType == FieldType.Message && !field.IsMap && field.MessageType.File.Package == "coatscan.v1")
            {
                var inner = field.MessageType.Parser.ParseFrom(ReadOnlySpan<byte>.Empty);
                named |= Fill(inner, names) && Put(message, field, inner);
            }
        }

        if (named && message is BatchItem item)
        {
            (item.Key, item.VehicleRef) = ("one", "car");
        }

        return named;
    }

    private static bool Put(IMessage message, FieldDescriptor field, object value)
    {
        if (field.IsRepeated)
        {
            ((System.Collections.IList)field.Accessor.GetValue(message)).Add(value);
        }
        else
        {
            field.Accessor.SetValue(message, value);
        }

        return true;
    }
}
