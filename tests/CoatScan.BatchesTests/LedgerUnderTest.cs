using CoatScan.Batches;
using CoatScan.Findings;
using Microsoft.Extensions.Time.Testing;

namespace CoatScan.BatchesTests;

/// <summary>A ledger on a fresh store, and a clock to turn.</summary>
public abstract class LedgerUnderTest : IAsyncDisposable
{
    /// <summary>Noon, UTC.</summary>
    public static readonly DateTimeOffset Noon = new(2026, 5, 1, 12, 0, 0, TimeSpan.Zero);

    protected LedgerUnderTest() => Clock = new FakeTimeProvider(Noon);

    public FakeTimeProvider Clock { get; }

    public TenantContext Tenants { get; } = new();

    public abstract IBatchLedger Ledger { get; }

    /// <summary>A second process on the same store.</summary>
    public abstract Task<IBatchLedger> OpenAnotherAsync();

    /// <summary>Number of findings in the store, of all tenants.</summary>
    public abstract long CountFindings();

    public abstract ValueTask DisposeAsync();
}
