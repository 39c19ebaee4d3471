using System.Data.Common;
using CoatScan.Storage.Photos;
using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore.Diagnostics;

namespace CoatScan.Storage.Engines;

/// <summary>Sets what SQLite forgets from connection to connection.</summary>
/// <remarks>
/// synchronous = FULL makes SQLite sync the write-ahead log at every commit, so that what was answered as stored
/// survives a loss of power (sqlite.org, "PRAGMA synchronous"). It is written out here, not left to the build's default.
/// </remarks>
internal sealed class SqliteInterceptor(int busyTimeoutMs) : DbConnectionInterceptor
{
    private readonly string _pragmas =
        FormattableString.Invariant($"PRAGMA busy_timeout = {busyTimeoutMs}; PRAGMA synchronous = FULL;");

    public override void ConnectionOpened(DbConnection connection, ConnectionEndEventData eventData)
    {
        HashDistance.AddTo((SqliteConnection)connection);
        using var command = connection.CreateCommand();
        command.CommandText = _pragmas;
        command.ExecuteNonQuery();
    }

    public override async Task ConnectionOpenedAsync(
        DbConnection connection, ConnectionEndEventData eventData, CancellationToken cancellationToken = default)
    {
        HashDistance.AddTo((SqliteConnection)connection);
        var command = connection.CreateCommand();
        await using (command.ConfigureAwait(false))
        {
            command.CommandText = _pragmas;
            await command.ExecuteNonQueryAsync(cancellationToken).ConfigureAwait(false);
        }
    }
}
