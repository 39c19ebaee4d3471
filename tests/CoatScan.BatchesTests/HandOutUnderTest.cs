using CoatScan.Batches;

namespace CoatScan.BatchesTests;

/// <summary>What carries items in a test; each process opens its own end.</summary>
public abstract class HandOutUnderTest : IAsyncDisposable
{
    /// <summary>The end of one process.</summary>
    public abstract IItemHandOut Open(int workers);

    public abstract ValueTask DisposeAsync();
}
