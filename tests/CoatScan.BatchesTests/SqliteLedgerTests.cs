namespace CoatScan.BatchesTests;

/// <summary>The conformance suite on SQLite.</summary>
public sealed class SqliteLedgerTests : LedgerConformance
{
    protected override Task<LedgerUnderTest> OpenAsync() => SqliteLedger.OpenAsync();
}
