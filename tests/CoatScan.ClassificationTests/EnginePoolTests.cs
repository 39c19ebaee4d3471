using CoatScan.Classification;

namespace CoatScan.ClassificationTests;

public sealed class EnginePoolTests
{
    [Fact]
    public void Use_lends_no_engine_twice_and_makes_at_most_capacity()
    {
        var made = 0;
        using var pool = new EnginePool<Engine>(2, () =>
        {
            Interlocked.Increment(ref made);
            return new Engine();
        });

        Parallel.For(0, 200, new ParallelOptions { MaxDegreeOfParallelism = 8 }, _ =>
            pool.Use(
                engine =>
                {
                    Assert.Equal(1, Interlocked.Increment(ref engine.Users));
                    Thread.SpinWait(500);
                    return Interlocked.Decrement(ref engine.Users);
                },
                CancellationToken.None));

        Assert.InRange(made, 1, 2);
    }

    [Fact]
    public void Use_returns_the_engine_after_a_failure()
    {
        using var pool = new EnginePool<Engine>(1, () => new Engine());

        Assert.Throws<InvalidOperationException>(() =>
            pool.Use<int>(_ => throw new InvalidOperationException(), CancellationToken.None));
        Assert.Equal(5, pool.Use(_ => 5, CancellationToken.None));
    }

    [Fact]
    public void Use_gives_up_waiting_when_cancelled()
    {
        using var pool = new EnginePool<Engine>(1, () => new Engine());
        using var cancellation = new CancellationTokenSource(TimeSpan.FromMilliseconds(30));

        pool.Use(
            _ =>
            {
                Assert.ThrowsAny<OperationCanceledException>(() => pool.Use(_ => 1, cancellation.Token));
                return 0;
            },
            CancellationToken.None);
    }

    private sealed class Engine : IDisposable
    {
        public int Users;

        public void Dispose()
        {
        }
    }
}
