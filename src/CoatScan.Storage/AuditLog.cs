namespace CoatScan.Storage;

/// <summary>Writes what no store writes by itself into the audit log.</summary>
public sealed class AuditLog(FindingDatabase database, TimeProvider time)
{
    /// <summary>Notes that the current caller tried what its credential does not allow.</summary>
    /// <param name="call">Path of the rpc or route.</param>
    /// <param name="cancellationToken">Stops before the commit.</param>
    public Task ForbiddenAsync(string call, CancellationToken cancellationToken = default) => database.WriteAsync(
        async (context, token) =>
        {
            await AuditChain.AppendAsync(
                context, time.GetUtcNow(), AuditChain.Call, [call], AuditChain.Forbidden, token);
            return await context.SaveChangesAsync(token);
        },
        cancellationToken);
}
