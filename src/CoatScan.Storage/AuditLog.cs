using Microsoft.EntityFrameworkCore;

namespace CoatScan.Storage;

/// <summary>Writes what no store writes by itself into the audit log.</summary>
public sealed class AuditLog(FindingDatabase database, TimeProvider time)
{
    private const string WholeStore = "store";

    /// <summary>Notes that the current caller tried what its credential does not allow.</summary>
    /// <param name="call">Path of the rpc or route.</param>
    /// <param name="cancellationToken">Stops before the commit.</param>
    public Task ForbiddenAsync(string call, CancellationToken cancellationToken = default) =>
        AppendAsync(AuditChain.Call, call, AuditChain.Forbidden, cancellationToken);

    /// <summary>Notes that a copy of the whole store is about to be made; the copy has this entry too.</summary>
    public Task BackupBegunAsync(CancellationToken cancellationToken = default) =>
        AppendAsync(AuditChain.Backup, WholeStore, AuditChain.Begun, cancellationToken);

    /// <summary>Notes that a copy of the whole store was made.</summary>
    public Task BackupDoneAsync(CancellationToken cancellationToken = default) =>
        AppendAsync(AuditChain.Backup, WholeStore, AuditChain.Done, cancellationToken);

    /// <summary>Notes that this store was made from a copy.</summary>
    public Task RestoredAsync(CancellationToken cancellationToken = default) =>
        AppendAsync(AuditChain.Restore, WholeStore, AuditChain.Done, cancellationToken);

    /// <summary>Whether the store has the form of this version, so that an entry can be added to its log.</summary>
    public async Task<bool> CanAppendAsync(CancellationToken cancellationToken = default) => !await database.ReadAsync(
        async (context, token) => (await context.Database.GetPendingMigrationsAsync(token)).Any(), cancellationToken);

    private Task<int> AppendAsync(string action, string resource, string outcome, CancellationToken cancellationToken) => database.WriteAsync(
        async (context, token) =>
        {
            await AuditChain.AppendAsync(context, time.GetUtcNow(), action, [resource], outcome, token);
            return await context.SaveChangesAsync(token);
        },
        cancellationToken);
}
