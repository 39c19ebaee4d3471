using CoatScan.Findings;
using CoatScan.Storage.Ledger;
using CoatScan.Storage.Photos;
using Microsoft.EntityFrameworkCore;

namespace CoatScan.Storage;

/// <summary>Keeps findings in the database.</summary>
/// <remarks>
/// <para>Every write is one transaction, synced to disk before its task ends. Safe for concurrent use, and for several
/// processes on one database.</para>
/// <para>Every method throws <see cref="CoatScanException"/> with <see cref="ErrorReason.StorageUnavailable"/> when the
/// database, its disk or another writer does not let it finish. Call <see cref="MigrateAsync"/> once before the others.</para>
/// <para>Every method but <see cref="PurgeAsync"/> sees the findings of the current tenant only.</para>
/// </remarks>
public sealed class FindingStore
{
    /// <summary>Findings on a page when the caller does not say.</summary>
    public const int DefaultPageSize = 50;

    /// <summary>Most findings on a page; more is lowered to this.</summary>
    public const int MaximumPageSize = 500;

    private const int PurgeBatchSize = 200;

    private readonly FindingDatabase _database;
    private readonly TimeProvider _time;
    private readonly TimeSpan _retention;

    /// <summary>Opens nothing yet.</summary>
    /// <param name="database">The database that all stores share.</param>
    /// <param name="options">How long findings are kept.</param>
    /// <param name="time">Clock of page tokens, request keys, retention and audit.</param>
    /// <exception cref="ArgumentException">An option is missing or out of its range.</exception>
    public FindingStore(FindingDatabase database, StorageOptions options, TimeProvider time)
    {
        ArgumentNullException.ThrowIfNull(database);
        ArgumentNullException.ThrowIfNull(options);
        ArgumentOutOfRangeException.ThrowIfLessThan(options.RetentionDays, 1);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(options.RetentionDays, 36_500);
        _database = database;
        _time = time;
        _retention = TimeSpan.FromDays(options.RetentionDays);
    }

    /// <summary>How long a request id is remembered (AIP-155; 24 hours).</summary>
    public static TimeSpan ReplayWindow { get; } = TimeSpan.FromHours(24);

    /// <summary>Makes the database's tables, of SQLite folder and file too, and checks that commits reach the disk.</summary>
    /// <exception cref="CoatScanException">They cannot be made or used; the message says why in one sentence.</exception>
    public Task MigrateAsync(CancellationToken cancellationToken = default) =>
        StorageStartup.MigrateAsync(_database, cancellationToken);

    /// <summary>Takes and leaves the write lock: returns when the store can be written to, throws when not.</summary>
    public Task CheckAsync(CancellationToken cancellationToken = default) =>
        _database.WriteAsync(
            (context, token) => context.Findings.AsNoTracking().AnyAsync(token), cancellationToken);

    /// <summary>The answer already given to this request, if any: look before doing the work.</summary>
    /// <returns>The stored finding; null when the request is new, forgotten, or its finding was deleted.</returns>
    /// <exception cref="CoatScanException">The request id was used for another request.</exception>
    public Task<Finding?> TryReplayAsync(RequestKey requestKey, CancellationToken cancellationToken = default)
    {
        RequestKeyTable.Check(requestKey);
        return _database.ReadAsync(
            async (context, token) =>
                await RequestKeyTable.FindAsync(context, requestKey, _time.GetUtcNow(), token) is { } id
                    ? await FindingTable.FindAsync(context, id, token)
                    : null,
            cancellationToken);
    }

    /// <summary>Stores a finding; of several with one request key, the first.</summary>
    /// <param name="finding">The finding; its time in UTC, its name not stored yet.</param>
    /// <param name="requestKey">The request that it answers; null for a request without id.</param>
    /// <param name="given">What it was made from beside its photos; null if that is not known.</param>
    /// <param name="look">How to look for earlier findings with the same pictures, to note them; null to note none.</param>
    /// <param name="cancellationToken">Stops before the commit.</param>
    /// <returns>The finding that is stored for the request: <paramref name="finding"/> with its notes, or the one stored first.</returns>
    /// <exception cref="CoatScanException">The request id was used for another request, or the name is malformed.</exception>
    /// <exception cref="ArgumentException">A value cannot be stored: a time with an offset, NaN or infinity.</exception>
    /// <exception cref="DbUpdateException">The name is stored already.</exception>
    public Task<Finding> SaveAsync(
        Finding finding,
        RequestKey? requestKey = null,
        FindingInputs? given = null,
        EarlierLook? look = null,
        CancellationToken cancellationToken = default)
    {
        // Now, not in the transaction: what cannot be stored is refused before it is waited for.
        var id = FindingTable.RowOf(finding).Id;
        if (requestKey is not null)
        {
            RequestKeyTable.Check(requestKey);
        }

        return _database.WriteAsync(
            async (context, token) =>
            {
                var now = _time.GetUtcNow();
                if (requestKey is not null
                    && !await RequestKeyTable.ClaimAsync(context, requestKey, id, now, token))
                {
                    var first = await RequestKeyTable.FindAsync(context, requestKey, now, token);
                    return (await FindingTable.FindAsync(context, first!, token))!;
                }

                var noted = await PictureIndex.NoteEarlierAsync(context, finding, look, token);
                var row = FindingTable.RowOf(noted);
                row.Given = given is null ? null : LedgerDocument.Write(given);
                context.Findings.Add(row);
                context.FindingPhotos.AddRange(FindingTable.PhotoRowsOf(noted, row));
                await AuditChain.AppendAsync(context, now, AuditChain.Create, [noted.Name], AuditChain.Done, token);
                await context.SaveChangesAsync(token);
                return noted;
            },
            cancellationToken);
    }

    /// <summary>Reads one finding.</summary>
    /// <param name="name">Its name, <c>findings/{id}</c>.</param>
    /// <param name="cancellationToken">Stops the read.</param>
    /// <exception cref="CoatScanException">The name is malformed, or there is no such finding.</exception>
    public Task<Finding> GetAsync(string name, CancellationToken cancellationToken = default)
    {
        var id = FindingName.IdOf(name);
        return _database.ReadAsync(
            async (context, token) => await FindingTable.FindAsync(context, id, token) ?? throw NotFound(name),
            cancellationToken);
    }

    /// <summary>What a finding was made from beside its photos; null if it was stored by a version that did not keep that.</summary>
    /// <param name="name">Its name, <c>findings/{id}</c>.</param>
    /// <param name="cancellationToken">Stops the read.</param>
    /// <exception cref="CoatScanException">The name is malformed, or there is no such finding.</exception>
    public Task<FindingInputs?> GetInputsAsync(string name, CancellationToken cancellationToken = default)
    {
        var id = FindingName.IdOf(name);
        return _database.ReadAsync(
            async (context, token) =>
            {
                var row = await context.Findings.AsNoTracking()
                    .Where(one => one.Id == id)
                    .Select(one => new { one.Given })
                    .SingleOrDefaultAsync(token) ?? throw NotFound(name);
                return row.Given is null ? null : LedgerDocument.Read<FindingInputs>(row.Given);
            },
            cancellationToken);
    }

    /// <summary>Lists findings, newest first; a walk over all pages sees every finding that was there at its start once.</summary>
    /// <param name="pageSize">Findings a page: 0 means 50, more than 500 means 500.</param>
    /// <param name="pageToken">The last page's <see cref="FindingPage.NextPageToken"/>; empty for the first page.</param>
    /// <param name="cancellationToken">Stops the read.</param>
    /// <exception cref="CoatScanException">The page size is negative, or the token is malformed or older than three days.</exception>
    public Task<FindingPage> ListAsync(
        int pageSize = 0, string pageToken = "", CancellationToken cancellationToken = default)
    {
        var size = PageSize.Of(pageSize, DefaultPageSize, MaximumPageSize);
        var now = _time.GetUtcNow();
        PageToken? start = pageToken.Length == 0 ? null : PageToken.Read(pageToken, now);
        return _database.ReadAsync(
            (context, token) => FindingTable.ReadPageAsync(context, size, start, now, token), cancellationToken);
    }

    /// <summary>Findings with the caller's own reference, newest first.</summary>
    /// <param name="externalRef">The reference, not empty.</param>
    /// <param name="most">Most findings to read.</param>
    /// <param name="cancellationToken">Stops the read.</param>
    public Task<IReadOnlyList<Finding>> ListOfReferenceAsync(
        string externalRef, int most, CancellationToken cancellationToken = default)
    {
        ArgumentException.ThrowIfNullOrEmpty(externalRef);
        return _database.ReadAsync(
            (context, token) => FindingTable.ListOfReferenceAsync(context, externalRef, most, token), cancellationToken);
    }

    /// <summary>Deletes a finding and the request keys that lead to it; leaves an audit entry, also when there is none.</summary>
    /// <param name="name">Its name, <c>findings/{id}</c>.</param>
    /// <param name="cancellationToken">Stops before the commit.</param>
    /// <exception cref="CoatScanException">The name is malformed, or there is no such finding.</exception>
    public async Task DeleteAsync(string name, CancellationToken cancellationToken = default)
    {
        var id = FindingName.IdOf(name);
        var deleted = await _database.WriteAsync(
            async (context, token) =>
            {
                var count = await FindingTable.DeleteAsync(context, [id], token);
                await AuditChain.AppendAsync(
                    context,
                    _time.GetUtcNow(),
                    AuditChain.Delete,
                    [name],
                    count == 0 ? AuditChain.NotFound : AuditChain.Done,
                    token);
                await context.SaveChangesAsync(token);
                return count;
            },
            cancellationToken);
        if (deleted == 0)
        {
            throw NotFound(name);
        }
    }

    /// <summary>Deletes findings older than the retention, and forgets request keys outside their window.</summary>
    /// <remarks>In short transactions, so that writers get in between; one audit entry a finding.</remarks>
    /// <returns>How many findings were deleted.</returns>
    public async Task<int> PurgeAsync(CancellationToken cancellationToken = default)
    {
        var now = _time.GetUtcNow();
        await _database.WriteAsync(
            (context, token) => RequestKeyTable.ForgetOldAsync(context, now, token), cancellationToken);

        var tenants = await _database.ReadAsync(
            (context, token) => FindingTable.ListTenantsOlderAsync(context, now - _retention, token), cancellationToken);
        var total = 0;
        foreach (var tenant in tenants)
        {
            using (_database.Tenants.Enter(new Tenant(tenant)))
            {
                total += await PurgeTenantAsync(now, cancellationToken);
            }
        }

        return total;
    }

    /// <summary>Checks that no entry of the audit log was changed, taken out or put in.</summary>
    public Task<AuditVerification> VerifyAuditAsync(CancellationToken cancellationToken = default) =>
        _database.ReadAsync(AuditChain.VerifyAsync, cancellationToken);

    private async Task<int> PurgeTenantAsync(DateTimeOffset now, CancellationToken cancellationToken)
    {
        var total = 0;
        int deleted;
        do
        {
            deleted = await _database.WriteAsync(
                async (context, token) =>
                {
                    var ids = await FindingTable.ListOlderAsync(context, now - _retention, PurgeBatchSize, token);
                    var names = ids.Select(FindingName.Of);
                    await FindingTable.DeleteAsync(context, ids, token);
                    await AuditChain.AppendAsync(context, now, AuditChain.Purge, names, AuditChain.Done, token);
                    await context.SaveChangesAsync(token);
                    return ids.Count;
                },
                cancellationToken);
            total += deleted;
        }
        while (deleted == PurgeBatchSize);

        return total;
    }

    private static CoatScanException NotFound(string name) => new(
        ErrorReason.FindingNotFound,
        $"There is no finding {name}.",
        "name",
        new Dictionary<string, string> { ["name"] = name });
}
