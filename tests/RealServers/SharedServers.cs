namespace CoatScan.RealServers;

/// <summary>The servers that the tests of one project share; each is started by the first test that asks.</summary>
public sealed class SharedServers : IAsyncDisposable
{
    private readonly SemaphoreSlim _one = new(1, 1);
    private PostgresServer? _postgres;
    private RabbitServer? _rabbit;

    /// <summary>A PostgreSQL server of one test's own, to be stopped and killed.</summary>
    public static Task<PostgresServer> OwnPostgresAsync()
    {
        Assert.SkipUnless(PostgresServer.IsInstalled, PostgresServer.Missing);
        return PostgresServer.StartAsync();
    }

    /// <summary>A RabbitMQ broker of one test's own, to be stopped and killed.</summary>
    public static Task<RabbitServer> OwnRabbitAsync()
    {
        Assert.SkipUnless(RabbitServer.IsInstalled, RabbitServer.Missing);
        return RabbitServer.StartAsync();
    }

    /// <summary>The PostgreSQL server; the test is skipped when the program is missing.</summary>
    public async Task<PostgresServer> PostgresAsync()
    {
        await _one.WaitAsync();
        try
        {
            return _postgres ??= await OwnPostgresAsync();
        }
        finally
        {
            _one.Release();
        }
    }

    /// <summary>The RabbitMQ broker; the test is skipped when the program is missing.</summary>
    public async Task<RabbitServer> RabbitAsync()
    {
        await _one.WaitAsync();
        try
        {
            return _rabbit ??= await OwnRabbitAsync();
        }
        finally
        {
            _one.Release();
        }
    }

    /// <inheritdoc/>
    public async ValueTask DisposeAsync()
    {
        if (_postgres is not null)
        {
            await _postgres.DisposeAsync();
        }

        if (_rabbit is not null)
        {
            await _rabbit.DisposeAsync();
        }

        _one.Dispose();
    }
}
