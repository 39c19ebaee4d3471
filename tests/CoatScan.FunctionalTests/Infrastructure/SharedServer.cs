[assembly: AssemblyFixture(typeof(CoatScan.FunctionalTests.Infrastructure.SharedServer))]

namespace CoatScan.FunctionalTests.Infrastructure;

/// <summary>The server of every test that does not need one of its own.</summary>
public sealed class SharedServer : IAsyncLifetime
{
    public RunningServer Server { get; private set; } = null!;

    public async ValueTask InitializeAsync() => Server = await RunningServer.StartAsync();

    public ValueTask DisposeAsync() => Server.DisposeAsync();
}
