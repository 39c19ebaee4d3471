using CoatScan.Batches;
using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Infrastructure;
using Microsoft.EntityFrameworkCore.Migrations;
using Microsoft.EntityFrameworkCore.Storage;

namespace CoatScan.Storage.Engines;

/// <summary>One file on a local disk.</summary>
internal sealed class SqliteEngine : IDatabaseEngine
{
    private const string FullSynchronous = "2";

    private readonly PooledDbContextFactory<FindingContext> _contexts;
    private readonly string _connectionString;

    /// <summary>Opens nothing yet.</summary>
    public SqliteEngine(StorageOptions options)
    {
        Place = Path.GetFullPath(options.Path);
        _connectionString = new SqliteConnectionStringBuilder
        {
            DataSource = Place,
            Mode = SqliteOpenMode.ReadWriteCreate,
            ForeignKeys = true,
            // Whole seconds; SQLite's own busy timeout, set by the interceptor, is the finer one.
            DefaultTimeout = (options.BusyTimeoutMs + 999) / 1000,
        }.ConnectionString;
        _contexts = new PooledDbContextFactory<FindingContext>(
            new DbContextOptionsBuilder<FindingContext>()
                .UseSqlite(_connectionString)
                .AddInterceptors(new SqliteInterceptor(options.BusyTimeoutMs))
                .Options);
    }

    /// <inheritdoc/>
    public string Place { get; }

    /// <inheritdoc/>
    public TimeProvider? ServerClock => null;

    /// <inheritdoc/>
    public string? WorkerFolder => Place + "-workers";

    /// <inheritdoc/>
    public string FindHistorySql => $"SELECT name FROM sqlite_master WHERE name = '{HistoryRepository.DefaultTableName}'";

    /// <inheritdoc/>
    public string ListHistorySql =>
        $"SELECT group_concat(MigrationId, ' ' ORDER BY MigrationId) FROM {HistoryRepository.DefaultTableName}";

    /// <inheritdoc/>
    public FindingContext CreateContext() => _contexts.CreateDbContext();

    /// <inheritdoc/>
    /// <remarks>The provider begins with BEGIN IMMEDIATE, which takes the lock of the file at once.</remarks>
    public Task<IDbContextTransaction> BeginWriteAsync(FindingContext context, CancellationToken cancellationToken) =>
        context.Database.BeginTransactionAsync(cancellationToken);

    /// <inheritdoc/>
    public async Task PrepareAsync(FindingContext context, CancellationToken cancellationToken)
    {
        MakeFolder();
        await context.Database.OpenConnectionAsync(cancellationToken);

        // WAL is written into the file and stays; a folder that cannot hold it (some network folders) keeps its old mode.
        var journal = await PlainSql.TextAsync(context, "PRAGMA journal_mode = WAL", cancellationToken);
        if (journal != "wal")
        {
            throw new NotSupportedException($"its folder does not support a write-ahead log (journal mode {journal})");
        }

        var synchronous = await PlainSql.TextAsync(context, "PRAGMA synchronous", cancellationToken);
        if (synchronous != FullSynchronous)
        {
            throw new NotSupportedException($"it does not sync at commit (synchronous {synchronous})");
        }
    }

    /// <inheritdoc/>
    public FormattableString RemovablePhotosSql(long markedUntilTicks) =>
        $"""
        SELECT * FROM photos WHERE delete_time_ticks <= {markedUntilTicks} AND (tenant, 'photos/' || sha256) NOT IN (
            SELECT item.tenant, photo.value FROM batch_items AS item, json_each(item.given, '$.photos') AS photo
            WHERE item.state IN ({(int)ItemState.Queued}, {(int)ItemState.Running}))
        """;

    /// <inheritdoc/>
    public bool IsFailure(Exception error) => error switch
    {
        SqliteException sqlite => IsFailure(sqlite.SqliteErrorCode),
        DbUpdateException { InnerException: SqliteException sqlite } => IsFailure(sqlite.SqliteErrorCode),
        _ => false,
    };

    /// <inheritdoc/>
    /// <remarks>It takes every text.</remarks>
    public bool IsTextRefused(Exception error) => false;

    /// <inheritdoc/>
    public string? WhyUnusable(Exception error) => error is not SqliteException sqlite ? null : sqlite.SqliteErrorCode switch
    {
        5 or 6 => "another process holds it",
        8 => "it cannot be written",
        11 or 26 => "it is damaged or no database",
        13 => "the disk is full",
        14 => "it cannot be opened",
        var code when IsFailure(code) => $"SQLite answers with code {code}",
        _ => "its tables are not those of this program",
    };

    /// <inheritdoc/>
    public void Dispose()
    {
        // The last connection that closes also folds the write-ahead log into the file.
        using var connection = new SqliteConnection(_connectionString);
        SqliteConnection.ClearPool(connection);
    }

    private void MakeFolder()
    {
        try
        {
            Directory.CreateDirectory(Path.GetDirectoryName(Place)!);
        }
        catch (Exception error) when (error is IOException or UnauthorizedAccessException)
        {
            throw new NotSupportedException("its folder cannot be made", error);
        }
    }

    // Result codes of sqlite.org/rescode.html. Not among them: ERROR, CONSTRAINT, MISMATCH, MISUSE and RANGE.
    private static bool IsFailure(int code) => code is
        3 // PERM
        or 5 // BUSY
        or 6 // LOCKED
        or 7 // NOMEM
        or 8 // READONLY
        or 10 // IOERR
        or 11 // CORRUPT
        or 13 // FULL
        or 14 // CANTOPEN
        or 15 // PROTOCOL
        or 22 // NOLFS
        or 23 // AUTH
        or 26; // NOTADB
}
