using CoatScan.Findings;
using CoatScan.Storage.Engines;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Infrastructure;
using Microsoft.EntityFrameworkCore.Migrations;

namespace CoatScan.Storage;

/// <summary>Makes the store ready, or says in one sentence why it cannot be.</summary>
internal static class StorageStartup
{
    /// <exception cref="CoatScanException">The database cannot be used.</exception>
    public static async Task MigrateAsync(FindingDatabase database, CancellationToken cancellationToken)
    {
        var engine = database.Engine;
        try
        {
            await database.ReadAsync(
                async (context, token) =>
                {
                    await engine.PrepareAsync(context, token);
                    return true;
                },
                cancellationToken);
            await database.WriteAsync(
                (context, token) => ApplyMigrationsAsync(engine, context, token), cancellationToken);
        }
        catch (CoatScanException error) when (error.InnerException is { } cause && engine.WhyUnusable(cause) is { } why)
        {
            throw Unusable(engine.Place, why, cause);
        }
        catch (NotSupportedException error)
        {
            throw Unusable(engine.Place, error.Message, error);
        }
        catch (Exception error) when (engine.WhyUnusable(error) is not null)
        {
            throw Unusable(engine.Place, engine.WhyUnusable(error)!, error);
        }
    }

    /// <summary>Brings the tables up to date in one transaction.</summary>
    /// <remarks>
    /// Not EF's own Migrate: on SQLite that marks the file as locked by a row, which stays behind when the process is
    /// killed and makes every later start wait for ever. A transaction ends with its process. Of several processes that
    /// start at once, the first one makes the tables and the others wait for it.
    /// </remarks>
    private static async Task<bool> ApplyMigrationsAsync(
        IDatabaseEngine engine, FindingContext context, CancellationToken cancellationToken)
    {
        var known = context.Database.GetMigrations().ToList();
        var applied = await ReadAppliedAsync(engine, context, cancellationToken);
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
        await PlainSql.TextAsync(context, history + script, cancellationToken);
        return true;
    }

    /// <summary>The migrations that the database has seen, in order; in plain SQL, which starts faster than EF's services.</summary>
    private static async Task<List<string>> ReadAppliedAsync(
        IDatabaseEngine engine, FindingContext context, CancellationToken cancellationToken)
    {
        if (await PlainSql.TextAsync(context, engine.FindHistorySql, cancellationToken) is not { Length: > 0 })
        {
            return [];
        }

        var ids = await PlainSql.TextAsync(context, engine.ListHistorySql, cancellationToken);
        return [.. ids!.Split(' ', StringSplitOptions.RemoveEmptyEntries)];
    }

    private static CoatScanException Unusable(string place, string why, Exception error) => new(
        ErrorReason.StorageUnavailable,
        $"The store {place} cannot be used: {why}.",
        metadata: new Dictionary<string, string> { ["path"] = place, ["why"] = why },
        inner: error);
}
