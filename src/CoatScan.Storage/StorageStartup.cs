using System.Globalization;
using CoatScan.Findings;
using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Infrastructure;
using Microsoft.EntityFrameworkCore.Migrations;
using Microsoft.EntityFrameworkCore.Storage;

namespace CoatScan.Storage;

/// <summary>Makes the store ready, or says in one sentence why it cannot be.</summary>
internal static class StorageStartup
{
    private const string FullSynchronous = "2";

    /// <exception cref="CoatScanException">The folder or the file cannot be used.</exception>
    public static async Task MigrateAsync(FindingDatabase database, CancellationToken cancellationToken)
    {
        MakeFolder(database.Path);
        try
        {
            await database.ReadAsync(PrepareAsync, cancellationToken);
            await database.WriteAsync(ApplyMigrationsAsync, cancellationToken);
        }
        catch (CoatScanException error) when (error.InnerException is SqliteException cause)
        {
            throw Unusable(database.Path, SentenceOf(cause), cause);
        }
        catch (SqliteException error)
        {
            throw Unusable(database.Path, "its tables are not those of this program", error);
        }
        catch (NotSupportedException error)
        {
            throw Unusable(database.Path, error.Message, error);
        }
    }

    private static void MakeFolder(string path)
    {
        try
        {
            Directory.CreateDirectory(Path.GetDirectoryName(path)!);
        }
        catch (Exception error) when (error is IOException or UnauthorizedAccessException)
        {
            throw Unusable(path, "its folder cannot be made", error);
        }
    }

    private static async Task<bool> PrepareAsync(FindingContext context, CancellationToken cancellationToken)
    {
        await context.Database.OpenConnectionAsync(cancellationToken);

        // WAL is written into the file and stays; a folder that cannot hold it (some network folders) keeps its old mode.
        var journal = await ScalarAsync(context, "PRAGMA journal_mode = WAL", cancellationToken);
        if (journal != "wal")
        {
            throw new NotSupportedException($"its folder does not support a write-ahead log (journal mode {journal})");
        }

        var synchronous = await ScalarAsync(context, "PRAGMA synchronous", cancellationToken);
        return synchronous == FullSynchronous
            ? true
            : throw new NotSupportedException($"it does not sync at commit (synchronous {synchronous})");
    }

    /// <summary>Brings the tables up to date in one transaction.</summary>
    /// <remarks>
    /// Not EF's own Migrate: on SQLite that marks the file as locked by a row, which stays behind when the process is
    /// killed and makes every later start wait for ever. A transaction ends with its process.
    /// </remarks>
    private static async Task<bool> ApplyMigrationsAsync(FindingContext context, CancellationToken cancellationToken)
    {
        var known = context.Database.GetMigrations().ToList();
        var applied = await ReadAppliedAsync(context, cancellationToken);
        if (applied.Except(known).Any())
        {
            throw new NotSupportedException("it was written by a newer version of this program");
        }

        if (applied.Count == known.Count)
        {
            return false;
        }

        var history = context.GetService<IHistoryRepository>().GetCreateIfNotExistsScript();
        var script = context.GetService<IMigrator>().GenerateScript(
            applied.Count == 0 ? Migration.InitialDatabase : applied[^1],
            options: MigrationsSqlGenerationOptions.NoTransactions);
        await ScalarAsync(context, history + script, cancellationToken);
        return true;
    }

    /// <summary>The migrations that the file has seen, in order; in plain SQL, which starts faster than EF's services.</summary>
    private static async Task<List<string>> ReadAppliedAsync(
        FindingContext context, CancellationToken cancellationToken)
    {
        const string table = HistoryRepository.DefaultTableName;
        if (await ScalarAsync(
            context, $"SELECT name FROM sqlite_master WHERE name = '{table}'", cancellationToken) is not { Length: > 0 })
        {
            return [];
        }

        var ids = await ScalarAsync(
            context, $"SELECT group_concat(MigrationId, ' ' ORDER BY MigrationId) FROM {table}", cancellationToken);
        return [.. ids!.Split(' ', StringSplitOptions.RemoveEmptyEntries)];
    }

    private static async Task<string?> ScalarAsync(
        FindingContext context, string sql, CancellationToken cancellationToken)
    {
        var command = context.Database.GetDbConnection().CreateCommand();
        await using (command)
        {
            command.CommandText = sql;
            command.Transaction = context.Database.CurrentTransaction?.GetDbTransaction();
            return Convert.ToString(
                await command.ExecuteScalarAsync(cancellationToken), CultureInfo.InvariantCulture);
        }
    }

    private static string SentenceOf(SqliteException error) => error.SqliteErrorCode switch
    {
        5 or 6 => "another process holds it",
        8 => "it cannot be written",
        11 or 26 => "it is damaged or no database",
        13 => "the disk is full",
        14 => "it cannot be opened",
        _ => $"SQLite answers with code {error.SqliteErrorCode}",
    };

    private static CoatScanException Unusable(string path, string why, Exception error) => new(
        ErrorReason.StorageUnavailable,
        $"The store {path} cannot be used: {why}.",
        metadata: new Dictionary<string, string> { ["path"] = path, ["why"] = why },
        inner: error);
}
