using CoatScan.Findings;
using CoatScan.Storage.Keys;
using Microsoft.Extensions.DependencyInjection;

namespace CoatScan.FunctionalTests.Infrastructure;

/// <summary>A server that asks for API keys, and callers with one.</summary>
internal static class KeyedServer
{
    public static Task<RunningServer> StartAsync(params (string Key, string Value)[] settings) =>
        RunningServer.StartAsync([("CoatScan:Access:ApiKeys", "true"), .. settings]);

    /// <summary>Makes a key behind the server's back, as an operator does.</summary>
    public static Task<NewApiKey> MakeKeyAsync(
        this RunningServer server, string tenant, AccessScope scope, TimeSpan? lifetime = null) =>
        server.Application.Services.GetRequiredService<ApiKeyStore>()
            .CreateAsync(new Tenant(tenant), scope, "test", lifetime, TestContext.Current.CancellationToken);

    /// <summary>A caller with a credential.</summary>
    public static KeyedCaller As(this RunningServer server, string credential) => new(server, credential);

    /// <summary>A caller with a fresh key.</summary>
    public static async Task<KeyedCaller> AsAsync(this RunningServer server, string tenant, AccessScope scope) =>
        server.As((await server.MakeKeyAsync(tenant, scope)).Text);
}
