using CoatScan.Batches;

namespace CoatScan.BatchesTests;

/// <summary>A channel for each process.</summary>
public sealed class ChannelHandOuts : HandOutUnderTest
{
    public override IItemHandOut Open(int workers) => new ChannelHandOut(workers, TimeProvider.System);

    public override ValueTask DisposeAsync() => ValueTask.CompletedTask;
}
