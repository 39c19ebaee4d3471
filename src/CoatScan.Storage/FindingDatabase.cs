using System.Text.Json;
using CoatScan.Findings;
using CoatScan.Storage.Engines;

namespace CoatScan.Storage;

/// <summary>Opens the database, lets one writer in at a time, and tells a store that fails from a bug of ours.</summary>
public sealed class FindingDatabase : IDisposable
{
    private readonly SemaphoreSlim _writer = new(1, 1);

    /// <summary>Opens nothing yet.</summary>
    /// <param name="options">Which database, and how long a call waits for it.</param>
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
        Engine = options.PostgresConnection.Length > 0 ? new PostgresEngine(options) : new SqliteEngine(options);
    }

    /// <summary>What is particular to the database.</summary>
    internal IDatabaseEngine Engine { get; }

    /// <summary>Whose rows a call sees.</summary>
    internal TenantContext Tenants { get; }

    /// <summary>Reads.</summary>
    /// <exception cref="CoatScanException">The store does not answer, or does not take a text.</exception>
    internal async Task<T> ReadAsync<T>(
        Func<FindingContext, CancellationToken, Task<T>> read, CancellationToken cancellationToken)
    {
        try
        {
            await using var context = Engine.CreateContext();
            context.Tenant = Tenants.Current.Id;
            context.Actor = Tenants.Actor;
            return await read(context, cancellationToken);
        }
        catch (Exception error) when (error is JsonException || Engine.IsFailure(error))
        {
            throw Unavailable(error);
        }
        catch (Exception error) when (Engine.IsTextRefused(error))
        {
            throw new CoatScanException(
                ErrorReason.FieldInvalid, "A text of the request holds the character U+0000, which the store does not take.", inner: error);
        }
    }

    /// <summary>Writes in one transaction, committed and synced before the task ends.</summary>
    /// <exception cref="CoatScanException">The store does not answer, or does not take a text.</exception>
    internal async Task<T> WriteAsync<T>(
        Func<FindingContext, CancellationToken, Task<T>> write, CancellationToken cancellationToken)
    {
        // The engine lets one writer in anyway; waiting here is fair, and costs no busy retries and no connection.
        await _writer.WaitAsync(cancellationToken);
        try
        {
            return await ReadAsync(
                async (context, token) =>
                {
                    await using var transaction = await Engine.BeginWriteAsync(context, token);
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

    /// <summary>Closes the connections.</summary>
    public void Dispose()
    {
        Engine.Dispose();
        _writer.Dispose();
    }

    // Without the path: this message travels to callers.
    private static CoatScanException Unavailable(Exception error) => new(
        ErrorReason.StorageUnavailable,
        error is JsonException
            ? "The store holds a finding that cannot be read."
            : "The store does not answer; try again later.",
        inner: error);
}
