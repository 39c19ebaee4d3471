using System.Text.Json;
using CoatScan.Findings;
using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Infrastructure;

namespace CoatScan.Storage;

/// <summary>Opens the database, lets one writer in at a time, and tells a store that fails from a bug of ours.</summary>
public sealed class FindingDatabase : IDisposable
{
    private readonly PooledDbContextFactory<FindingContext> _contexts;
    private readonly SemaphoreSlim _writer = new(1, 1);
    private readonly string _connectionString;

    /// <summary>Opens nothing yet.</summary>
    /// <param name="options">Where the file lies, and how long a call waits for it.</param>
    /// <param name="tenants">Whose rows a call sees.</param>
    /// <exception cref="ArgumentException">An option is missing or out of its range.</exception>
    public FindingDatabase(StorageOptions options, TenantContext tenants)
    {
        ArgumentNullException.ThrowIfNull(options);
        ArgumentNullException.ThrowIfNull(tenants);
        ArgumentException.ThrowIfNullOrWhiteSpace(options.Path);
        ArgumentOutOfRangeException.ThrowIfLessThan(options.BusyTimeoutMs, 1);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(options.BusyTimeoutMs, 60_000);

        Tenants = tenants;
        Path = System.IO.Path.GetFullPath(options.Path);
        _connectionString = new SqliteConnectionStringBuilder
        {
            DataSource = Path,
            Mode = SqliteOpenMode.ReadWriteCreate,
            ForeignKeys = true,
            // Whole seconds; SQLite's own busy timeout, set by the interceptor, is the finer one.
            DefaultTimeout = (options.BusyTimeoutMs + 999) / 1000,
        }.ConnectionString;
        _contexts = new PooledDbContextFactory<FindingContext>(
            new DbContextOptionsBuilder<FindingContext>()
                .UseSqlite(_connectionString)
                .AddInterceptors(new DurabilityInterceptor(options.BusyTimeoutMs))
                .Options);
    }

    /// <summary>Full path of the file.</summary>
    public string Path { get; }

    /// <summary>Whose rows a call sees.</summary>
    internal TenantContext Tenants { get; }

    /// <summary>Reads.</summary>
    /// <exception cref="CoatScanException">The store does not answer.</exception>
    internal async Task<T> ReadAsync<T>(
        Func<FindingContext, CancellationToken, Task<T>> read, CancellationToken cancellationToken)
    {
        try
        {
            await using var context = await _contexts.CreateDbContextAsync(cancellationToken);
            context.Tenant = Tenants.Current.Id;
            context.Actor = Tenants.Actor;
            return await read(context, cancellationToken);
        }
        catch (Exception error) when (IsStoreFailure(error))
        {
            throw Unavailable(error);
        }
    }

    /// <summary>Writes in one transaction, committed and synced before the task ends.</summary>
    /// <exception cref="CoatScanException">The store does not answer.</exception>
    internal async Task<T> WriteAsync<T>(
        Func<FindingContext, CancellationToken, Task<T>> write, CancellationToken cancellationToken)
    {
        // SQLite lets one writer in anyway; waiting here is fair and costs no busy retries. Other processes that share
        // the file are held off by SQLite's own lock, which BeginTransaction takes at once (BEGIN IMMEDIATE).
        await _writer.WaitAsync(cancellationToken);
        try
        {
            return await ReadAsync(
                async (context, token) =>
                {
                    await using var transaction = await context.Database.BeginTransactionAsync(token);
                    var result = await write(context, token);
                    await transaction.CommitAsync(token);
                    return result;
                },
                cancellationToken);
        }
        finally
        {
            _writer.Release();
        }
    }

    /// <summary>Closes the file.</summary>
    public void Dispose()
    {
        // The last connection that closes also folds the write-ahead log into the file.
        using var connection = new SqliteConnection(_connectionString);
        SqliteConnection.ClearPool(connection);
        _writer.Dispose();
    }

    /// <summary>Whether the disk, the file or its lock is at fault, and not the code that asked.</summary>
    internal static bool IsStoreFailure(Exception error) => error switch
    {
        SqliteException sqlite => IsStoreFailure(sqlite.SqliteErrorCode),
        DbUpdateException { InnerException: SqliteException sqlite } => IsStoreFailure(sqlite.SqliteErrorCode),
        JsonException => true,
        _ => false,
    };

    // Result codes of sqlite.org/rescode.html. Not among them: ERROR, CONSTRAINT, MISMATCH, MISUSE and RANGE.
    private static bool IsStoreFailure(int code) => code is
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

    // Without the path: this message travels to callers.
    private static CoatScanException Unavailable(Exception error) => new(
        ErrorReason.StorageUnavailable,
        error is JsonException
            ? "The store holds a finding that cannot be read."
            : "The store does not answer; try again later.",
        inner: error);
}
