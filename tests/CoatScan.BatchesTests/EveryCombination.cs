using CoatScan.RealServers;

namespace CoatScan.BatchesTests;

/// <summary>One machine: a file and a channel.</summary>
public sealed class SqliteChannelEngineTests : EngineConformance
{
    protected override int LargeBatch => 5_000;

    protected override Task<LedgerUnderTest> OpenStoreAsync() => SqliteLedger.OpenAsync();

    protected override Task<HandOutUnderTest> OpenHandOutAsync() => Task.FromResult<HandOutUnderTest>(new ChannelHandOuts());
}

/// <summary>Several machines: a database server and a broker.</summary>
public sealed class PostgresBrokerEngineTests(SharedServers servers) : EngineConformance
{
    protected override Task<LedgerUnderTest> OpenStoreAsync() => PostgresLedger.OpenAsync(servers);

    protected override async Task<HandOutUnderTest> OpenHandOutAsync() => await BrokerHandOuts.OpenAsync(servers);
}

/// <summary>Several machines without a broker.</summary>
public sealed class PostgresChannelEngineTests(SharedServers servers) : EngineConformance
{
    protected override Task<LedgerUnderTest> OpenStoreAsync() => PostgresLedger.OpenAsync(servers);

    protected override Task<HandOutUnderTest> OpenHandOutAsync() => Task.FromResult<HandOutUnderTest>(new ChannelHandOuts());
}

/// <summary>Several processes of one machine.</summary>
public sealed class SqliteBrokerEngineTests(SharedServers servers) : EngineConformance
{
    protected override Task<LedgerUnderTest> OpenStoreAsync() => SqliteLedger.OpenAsync();

    protected override async Task<HandOutUnderTest> OpenHandOutAsync() => await BrokerHandOuts.OpenAsync(servers);
}
