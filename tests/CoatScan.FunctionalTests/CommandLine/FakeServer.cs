using System.Net;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;
using Microsoft.AspNetCore.Server.Kestrel.Core;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging;

namespace CoatScan.FunctionalTests.CommandLine;

/// <summary>
/// A server that does what a photo's bytes say, for what a healthy service does not do on demand: answer late, lose
/// the stream, be busy. Real Kestrel, real channel; only the findings are made up.
/// </summary>
internal sealed class FakeServer : IAsyncDisposable
{
    private readonly WebApplication _application;

    private FakeServer(WebApplication application, FakeFindings findings)
    {
        _application = application;
        Findings = findings;
        Address = application.Services.GetRequiredService<IServer>().Features
            .Get<IServerAddressesFeature>()!.Addresses.First();
    }

    public FakeFindings Findings { get; }

    public string Address { get; }

    public static async Task<FakeServer> StartAsync()
    {
        var findings = new FakeFindings();
        var builder = WebApplication.CreateSlimBuilder();
        builder.Logging.ClearProviders();
        builder.Services.AddGrpc();
        builder.Services.AddSingleton(findings);
        builder.Services.AddSingleton<FakeKnowledge>();
        builder.WebHost.ConfigureKestrel(kestrel =>
            kestrel.Listen(IPAddress.Loopback, 0, listen => listen.Protocols = HttpProtocols.Http2));
        var application = builder.Build();
        application.MapGrpcService<FakeFindings>();
        application.MapGrpcService<FakeKnowledge>();
        await application.StartAsync(TestContext.Current.CancellationToken);
        return new(application, findings);
    }

    public ValueTask DisposeAsync() => _application.DisposeAsync();
}
