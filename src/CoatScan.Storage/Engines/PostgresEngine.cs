using System.Data;
using System.Globalization;
using System.Net.Sockets;
using CoatScan.Batches;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Infrastructure;
using Microsoft.EntityFrameworkCore.Migrations;
using Microsoft.EntityFrameworkCore.Storage;
using Npgsql;

namespace CoatScan.Storage.Engines;

/// <summary>A database of a PostgreSQL server, 14 or newer, which processes on several machines share.</summary>
/// <remarks>
/// One writer at a time over all processes, as in SQLite: a lock that the server holds until the transaction ends. So every
/// rule that holds there holds here, the chain of the audit log and "row and file together" among them.
/// </remarks>
internal sealed class PostgresEngine : IDatabaseEngine
{
    private const int OldestVersion = 14;
    private const int ConnectSeconds = 5;

    // "CoatScan" in ASCII: other programs' locks in the same database have other numbers.
    private const long WriteLock = 0x436F61745363616E;

    // A process that stops in the middle of a write, or a machine that is cut off, must not hold off all others for long.
    private const int LongestPauseMs = 15_000;

    private readonly NpgsqlDataSource _source;
    private readonly PooledDbContextFactory<PostgresContext> _contexts;
    private readonly ServerClock _clock = new(TimeProvider.System);

    /// <summary>Opens nothing yet.</summary>
    /// <exception cref="ArgumentException">The connection string is none, or names no host or database.</exception>
    public PostgresEngine(StorageOptions options)
    {
        var (connection, refusal) = PostgresAddress.Read(options.PostgresConnection);
        if (connection is null)
        {
            throw new ArgumentException(refusal);
        }

        Place = $"{connection.Host}/{connection.Database}";
        if (!connection.ContainsKey("Timeout"))
        {
            connection.Timeout = ConnectSeconds;
        }

        connection.ApplicationName ??= "coatscan";
        connection.Options = string.Create(
            CultureInfo.InvariantCulture,
            $"{connection.Options} -c lock_timeout={options.BusyTimeoutMs} -c idle_in_transaction_session_timeout={LongestPauseMs}")
            .TrimStart();
        _source = NpgsqlDataSource.Create(connection);
        _contexts = new PooledDbContextFactory<PostgresContext>(
            new DbContextOptionsBuilder<PostgresContext>().UseNpgsql(_source).Options);
    }

    /// <inheritdoc/>
    public string Place { get; }

    /// <inheritdoc/>
    public TimeProvider ServerClock => _clock;

    /// <inheritdoc/>
    public string? WorkerFolder => null;

    /// <inheritdoc/>
    public string FindHistorySql => $"SELECT to_regclass('\"{HistoryRepository.DefaultTableName}\"')::text";

    /// <inheritdoc/>
    public string ListHistorySql =>
        $"SELECT string_agg(\"MigrationId\", ' ' ORDER BY \"MigrationId\") FROM \"{HistoryRepository.DefaultTableName}\"";

    /// <inheritdoc/>
    public FindingContext CreateContext() => _contexts.CreateDbContext();

    /// <inheritdoc/>
    public async Task<IDbContextTransaction> BeginWriteAsync(FindingContext context, CancellationToken cancellationToken)
    {
        // Read committed: what the writer before committed is seen by the first statement behind the lock.
        var transaction = await context.Database.BeginTransactionAsync(IsolationLevel.ReadCommitted, cancellationToken);
        try
        {
            var lockNow = context.Database.GetDbConnection().CreateCommand();
            await using (lockNow)
            {
                lockNow.CommandText = FormattableString.Invariant(
                    $"SELECT pg_advisory_xact_lock({WriteLock}); SELECT clock_timestamp();");
                var reader = await lockNow.ExecuteReaderAsync(cancellationToken);
                await using (reader)
                {
                    await reader.NextResultAsync(cancellationToken);
                    await reader.ReadAsync(cancellationToken);
                    _clock.Set(reader.GetFieldValue<DateTime>(0));
                }
            }

            return transaction;
        }
        catch
        {
            await transaction.DisposeAsync();
            throw;
        }
    }

    /// <inheritdoc/>
    public async Task PrepareAsync(FindingContext context, CancellationToken cancellationToken)
    {
        await context.Database.OpenConnectionAsync(cancellationToken);
        var version = ((NpgsqlConnection)context.Database.GetDbConnection()).PostgreSqlVersion;
        if (version.Major < OldestVersion)
        {
            throw new NotSupportedException($"its server is PostgreSQL {version}; {OldestVersion} or newer is needed");
        }

        // "off" answers before the log is on the disk (PostgreSQL manual, "Asynchronous Commit"): a loss of power would take
        // back what a caller was told is stored. Every other value waits for the disk of the server at least.
        foreach (var setting in new[] { "fsync", "synchronous_commit", "full_page_writes" })
        {
            if (await PlainSql.TextAsync(context, $"SHOW {setting}", cancellationToken) == "off")
            {
                throw new NotSupportedException($"its server does not keep commits over a loss of power ({setting} is off)");
            }
        }
    }

    /// <inheritdoc/>
    /// <remarks>json, not jsonb: it takes every text that our documents hold, also the escape of the character 0.</remarks>
    public FormattableString RemovablePhotosSql(long markedUntilTicks) =>
        $"""
        SELECT * FROM photos WHERE delete_time_ticks <= {markedUntilTicks} AND (tenant, 'photos/' || sha256) NOT IN (
            SELECT item.tenant, photo.value
            FROM batch_items AS item, json_array_elements_text(item.given::json -> 'photos') AS photo(value)
            WHERE item.state IN ({(int)ItemState.Queued}, {(int)ItemState.Running}))
        """;

    /// <inheritdoc/>
    public bool IsFailure(Exception error) => error switch
    {
        PostgresException postgres => IsFailure(postgres.SqlState),
        // No answer of the server: the way to it is broken.
        NpgsqlException or SocketException or TimeoutException => true,
        // The provider wraps what it thinks worth another try.
        DbUpdateException or InvalidOperationException => error.InnerException is { } inner && IsFailure(inner),
        _ => false,
    };

    /// <inheritdoc/>
    /// <remarks>It takes all of Unicode but the character 0 (PostgreSQL manual, "Character Types").</remarks>
    public bool IsTextRefused(Exception error) =>
        (error as PostgresException ?? error.InnerException as PostgresException)?.SqlState
            is PostgresErrorCodes.CharacterNotInRepertoire or PostgresErrorCodes.UntranslatableCharacter;

    /// <inheritdoc/>
    public string? WhyUnusable(Exception error) => error switch
    {
        PostgresException postgres => postgres.SqlState switch
        {
            PostgresErrorCodes.InvalidPassword or PostgresErrorCodes.InvalidAuthorizationSpecification =>
                "its server refuses the user or the password",
            PostgresErrorCodes.InvalidCatalogName => "its server has no such database",
            PostgresErrorCodes.InsufficientPrivilege => "its user may not make or use tables there",
            PostgresErrorCodes.LockNotAvailable => "another process holds it",
            PostgresErrorCodes.ReadOnlySqlTransaction => "it cannot be written",
            PostgresErrorCodes.DiskFull => "the disk is full",
            var state when IsFailure(state) => $"its server answers with SQLSTATE {state}",
            _ => "its tables are not those of this program",
        },
        NpgsqlException or SocketException or TimeoutException => "its server cannot be reached",
        DbUpdateException or InvalidOperationException => error.InnerException is { } inner ? WhyUnusable(inner) : null,
        _ => null,
    };

    /// <inheritdoc/>
    public void Dispose() => _source.Dispose();

    // Classes and codes of the PostgreSQL manual, appendix A. Not among them: faults of a statement or its data.
    private static bool IsFailure(string state) =>
        state[..2] is
            "08" // connection exception
            or "28" // invalid authorization
            or "3D" // no such database
            or "53" // insufficient resources
            or "57" // operator intervention: shutdown, cancel, not accepting connections yet
            or "58" // system error
            or "XX" // data corrupted, internal error
        || state is
            PostgresErrorCodes.LockNotAvailable
            or PostgresErrorCodes.DeadlockDetected
            or PostgresErrorCodes.SerializationFailure
            or PostgresErrorCodes.ReadOnlySqlTransaction
            or "25P03"; // idle in transaction for too long
}
