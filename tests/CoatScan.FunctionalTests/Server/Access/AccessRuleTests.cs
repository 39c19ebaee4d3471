using System.Net;
using CoatScan.Findings;
using CoatScan.FunctionalTests.Infrastructure;
using Grpc.Core;
using Microsoft.AspNetCore.Builder;

namespace CoatScan.FunctionalTests.Server.Access;

/// <summary>Every rpc and route has a rule, and keeps it; found by looking at the running server.</summary>
public sealed class AccessRuleTests : IAsyncLifetime
{
    // What a load balancer and an orchestrator ask without a credential.
    private static readonly string[] Open =
        ["/health/live", "/health/ready", "/grpc.health.v1.Health/Check", "/grpc.health.v1.Health/Watch"];

    private RunningServer _server = null!;

    public async ValueTask InitializeAsync() => _server = await KeyedServer.StartAsync();

    public ValueTask DisposeAsync() => _server.DisposeAsync();

    [Fact]
    public void Every_rpc_and_route_says_who_may_call_it()
    {
        var without = EveryCall.Of(_server).Where(one => one.Rule() is null && !one.IsOpen());

        Assert.Empty(without.Select(one => one.RoutePattern.RawText));
        Assert.Equal(Open.Order(), EveryCall.Of(_server).Where(one => one.IsOpen()).Select(one => one.RoutePattern.RawText!).Order());
    }

    [Fact]
    public void Every_rpc_of_the_contract_is_served_under_its_rule()
    {
        var served = EveryCall.Of(_server).Select(one => one.Rpc()).OfType<string>().ToHashSet();
        var contract = EveryCall.Services().SelectMany(service => service.Methods).Select(m => $"/{m.Service.FullName}/{m.Name}").ToList();

        Assert.True(contract.Count >= 26, $"{contract.Count} rpcs");
        Assert.Empty(contract.Except(served));
    }

    [Fact]
    public async Task Every_rpc_without_a_credential_is_unauthenticated()
    {
        var rpcs = EveryCall.Of(_server).Where(one => !one.IsOpen()).Select(one => one.Rpc()).OfType<string>().ToList();

        Assert.True(rpcs.Count >= 27, $"{rpcs.Count} rpcs");
        foreach (var rpc in rpcs)
        {
            var error = await EveryCall.CallAsync(_server.Channel, rpc, []);
            Assert.True(error?.StatusCode == StatusCode.Unauthenticated, $"{rpc}: {error?.Status}");
            Assert.Equal("UNAUTHENTICATED", error!.GetRpcStatus()!.Info().Reason);
        }
    }

    [Fact]
    public async Task Every_route_without_a_credential_is_unauthenticated()
    {
        var routes = EveryCall.Of(_server).Where(one => !one.IsOpen() && one.Rpc() is null).ToList();

        Assert.True(routes.Count >= 26, $"{routes.Count} routes");
        foreach (var route in routes)
        {
            using var request = EveryCall.Request(route);
            using var response = await _server.Http.SendAsync(request, TestContext.Current.CancellationToken);
            var body = await response.Content.ReadAsStringAsync(TestContext.Current.CancellationToken);
            Assert.True(response.StatusCode == HttpStatusCode.Unauthorized, $"{route.RoutePattern.RawText}: {response.StatusCode} {body}");
            Assert.Contains("\"UNAUTHENTICATED\"", body, StringComparison.Ordinal);
            Assert.Equal("Bearer", response.Headers.WwwAuthenticate.Single().Scheme);
        }
    }

    [Theory]
    [InlineData(AccessScope.Read)]
    [InlineData(AccessScope.Write)]
    [InlineData(AccessScope.Admin)]
    public async Task Every_rpc_takes_its_scope_and_those_above_and_no_other(AccessScope scope)
    {
        using var caller = await _server.AsAsync("north", scope);
        var rpcs = EveryCall.Of(_server).Where(one => one.Rpc() is not null && !one.IsOpen()).ToList();

        foreach (var rpc in rpcs)
        {
            var error = await EveryCall.CallAsync(caller.Channel, rpc.Rpc()!, []);
            var refused = error?.StatusCode is StatusCode.Unauthenticated or StatusCode.PermissionDenied;
            Assert.True(refused == rpc.Rule()!.Scope > scope, $"{rpc.Rpc()} with {scope}: {error?.Status}");
            if (refused)
            {
                var info = error!.GetRpcStatus()!.Info();
                Assert.Equal("FORBIDDEN", info.Reason);
                Assert.Equal(scope.ToString().ToLowerInvariant(), info.Metadata["scope"]);
                Assert.Equal(rpc.Rule()!.Scope.ToString().ToLowerInvariant(), info.Metadata["scope_needed"]);
            }
        }
    }

    [Fact]
    public async Task Every_route_refuses_a_scope_that_is_too_small()
    {
        using var reader = await _server.AsAsync("north", AccessScope.Read);
        foreach (var route in EveryCall.Of(_server).Where(one => one.Rpc() is null && one.Rule()?.Scope > AccessScope.Read))
        {
            using var request = EveryCall.Request(route);
            using var response = await reader.Http.SendAsync(request, TestContext.Current.CancellationToken);
            Assert.True(response.StatusCode == HttpStatusCode.Forbidden, $"{route.RoutePattern.RawText}: {response.StatusCode}");
        }
    }

    [Fact]
    public async Task Route_without_a_rule_is_closed_to_everybody_with_access_on_and_off()
    {
        await using var open = await RunningServer.StartAsync();
        foreach (var server in new[] { _server, open })
        {
            server.Application.MapGet("/test/forgotten", () => "inside");
        }

        using var admin = await _server.AsAsync("local", AccessScope.Admin);
        var withKey = await Errors.OfJsonAsync(admin.Http, HttpMethod.Get, "/test/forgotten", null, HttpStatusCode.Forbidden);
        var off = await Errors.OfJsonAsync(open.Http, HttpMethod.Get, "/test/forgotten", null, HttpStatusCode.Forbidden);

        Assert.Equal(("FORBIDDEN", "FORBIDDEN"), (withKey.Reason, off.Reason));
        Assert.Contains("no access rule", off.Body.GetProperty("message").GetString(), StringComparison.Ordinal);
        Assert.Contains(EveryCall.Of(open), one => one.Rule() is null && !one.IsOpen());
    }

    [Fact]
    public async Task Metrics_are_for_the_operator_alone()
    {
        using var tenant = await _server.AsAsync("north", AccessScope.Admin);
        using var reader = await _server.AsAsync("local", AccessScope.Read);
        using var op = await _server.AsAsync("local", AccessScope.Admin);

        foreach (var caller in new[] { tenant, reader })
        {
            var (reason, _) = await Errors.OfJsonAsync(caller.Http, HttpMethod.Get, "/metrics", null, HttpStatusCode.Forbidden);
            Assert.Equal("FORBIDDEN", reason);
        }

        Assert.Contains(
            "coatscan_refusals_total",
            await op.Http.GetStringAsync("/metrics", TestContext.Current.CancellationToken),
            StringComparison.Ordinal);
    }

    [Fact]
    public async Task Nothing_there_is_said_to_callers_with_a_credential_only()
    {
        using var caller = await _server.AsAsync("north", AccessScope.Read);
        using var nothing = await caller.Http.GetAsync("/v1/nothing", TestContext.Current.CancellationToken);
        var unknownRpc = await EveryCall.CallAsync(caller.Channel, "/coatscan.v1.FindingService/Nothing", []);
        var unknownService = await EveryCall.CallAsync(caller.Channel, "/coatscan.v1.NoService/Nothing", []);
        using var anonymous = await _server.Http.GetAsync("/v1/nothing", TestContext.Current.CancellationToken);

        Assert.Equal(HttpStatusCode.NotFound, nothing.StatusCode);
        Assert.Equal(StatusCode.Unimplemented, unknownRpc!.StatusCode);
        Assert.Equal(StatusCode.Unimplemented, unknownService!.StatusCode);
        Assert.Equal(HttpStatusCode.Unauthorized, anonymous.StatusCode);
    }

    [Fact]
    public async Task Health_asks_for_no_credential()
    {
        foreach (var path in new[] { "/health/live", "/health/ready" })
        {
            using var response = await _server.Http.GetAsync(path, TestContext.Current.CancellationToken);
            Assert.Equal(HttpStatusCode.OK, response.StatusCode);
        }

        Assert.Null(await EveryCall.CallAsync(_server.Channel, "/grpc.health.v1.Health/Check", []));
    }
}
