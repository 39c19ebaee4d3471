using CoatScan.RealServers;

[assembly: AssemblyFixture(typeof(SharedServers))]

namespace CoatScan.BatchesTests;

/// <summary>The conformance suite on PostgreSQL.</summary>
public sealed class PostgresLedgerTests(SharedServers servers) : LedgerConformance
{
    protected override Task<LedgerUnderTest> OpenAsync() => PostgresLedger.OpenAsync(servers);
}
