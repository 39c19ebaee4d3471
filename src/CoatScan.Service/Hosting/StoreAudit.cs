using CoatScan.Findings;
using CoatScan.Storage;

namespace CoatScan.Service.Hosting;

/// <summary>The audit log of a service, which may run meanwhile.</summary>
public static class StoreAudit
{
    /// <summary>Walks the log from its first entry to the first that does not fit.</summary>
    /// <param name="dataFolder">Folder of the database.</param>
    /// <param name="cancellationToken">Stops the walk.</param>
    /// <exception cref="CoatScanException">There is no store, or it cannot be used; the message says so in one sentence.</exception>
    public static async Task<AuditCheck> VerifyAsync(string dataFolder, CancellationToken cancellationToken)
    {
        var options = StoreLocation.Of(dataFolder);
        if (options.PostgresConnection.Length == 0 && !File.Exists(options.Path))
        {
            throw new CoatScanException(
                ErrorReason.StorageUnavailable,
                $"There is no store {options.Path}.",
                metadata: new Dictionary<string, string> { ["path"] = options.Path });
        }

        using var database = new FindingDatabase(options, new TenantContext());
        var store = new FindingStore(database, options, TimeProvider.System);
        await store.MigrateAsync(cancellationToken).ConfigureAwait(false);
        var found = await store.VerifyAuditAsync(cancellationToken).ConfigureAwait(false);
        return new AuditCheck(found.Entries, found.FirstBroken, found.LastHash);
    }
}
