using CoatScan.Findings;
using CoatScan.Storage.Rows;
using Microsoft.EntityFrameworkCore;

namespace CoatScan.Storage.Keys;

/// <summary>The API keys of all tenants: hashes, never secrets. Every change leaves an audit entry.</summary>
/// <remarks>
/// For the operator of the machine and for the check of a credential: both stand before any tenant is known, so these
/// methods look at all tenants.
/// </remarks>
public sealed class ApiKeyStore(FindingDatabase database, TimeProvider time)
{
    /// <summary>Most characters of a name for people.</summary>
    public const int MaximumNameLength = 255;

    /// <summary>Makes a key.</summary>
    /// <param name="tenant">Whose data it opens.</param>
    /// <param name="scope">What it allows.</param>
    /// <param name="displayName">Name for people, at most 255 characters.</param>
    /// <param name="lifetime">How long it holds; null for no end.</param>
    /// <param name="cancellationToken">Stops before the commit.</param>
    public Task<NewApiKey> CreateAsync(
        Tenant tenant, AccessScope scope, string displayName, TimeSpan? lifetime, CancellationToken cancellationToken = default)
    {
        ArgumentNullException.ThrowIfNull(displayName);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(displayName.Length, MaximumNameLength, nameof(displayName));
        return database.WriteAsync(
            (context, token) => AddAsync(context, tenant, scope, displayName, lifetime, token), cancellationToken);
    }

    /// <summary>The key that a credential is, if it holds now; null if it is none, or does not hold any more.</summary>
    /// <param name="text">What the caller sent.</param>
    /// <param name="cancellationToken">Stops the read.</param>
    public async Task<ApiKey?> CheckAsync(string text, CancellationToken cancellationToken = default)
    {
        ArgumentNullException.ThrowIfNull(text);
        if (ApiKeySecret.Read(text) is not { } parts)
        {
            return null;
        }

        // Read each time: a key that was revoked must not work a moment longer.
        var row = await database.ReadAsync(
            (context, token) => context.ApiKeys.IgnoreQueryFilters().AsNoTracking()
                .SingleOrDefaultAsync(one => one.Id == parts.Id, token),
            cancellationToken);
        if (row is null || !ApiKeySecret.Same(row.SecretHash, parts.Hash))
        {
            return null;
        }

        var key = ToKey(row);
        return key.HoldsAt(time.GetUtcNow()) ? key : null;
    }

    /// <summary>Keys in the order of their making, also those that do not hold any more.</summary>
    /// <param name="tenant">Only keys of this tenant; null for all.</param>
    /// <param name="cancellationToken">Stops the read.</param>
    public async Task<IReadOnlyList<ApiKey>> ListAsync(Tenant? tenant, CancellationToken cancellationToken = default)
    {
        var rows = await database.ReadAsync(
            (context, token) =>
            {
                var all = context.ApiKeys.IgnoreQueryFilters().AsNoTracking();
                var id = tenant?.Id;
                return (id is null ? all : all.Where(row => row.Tenant == id))
                    .OrderBy(row => row.CreateTimeTicks).ThenBy(row => row.Id).ToListAsync(token);
            },
            cancellationToken);
        return rows.ConvertAll(ToKey);
    }

    /// <summary>Ends a key at once. One that was revoked stays as it is.</summary>
    /// <exception cref="CoatScanException">KEY_NOT_FOUND.</exception>
    public Task<ApiKey> RevokeAsync(string id, CancellationToken cancellationToken = default) => database.WriteAsync(
        async (context, token) =>
        {
            var row = await GetAsync(context, id, token);
            row.RevokeTimeTicks ??= time.GetUtcNow().UtcTicks;
            await AppendAsync(context, row, AuditChain.Delete, token);
            return ToKey(row);
        },
        cancellationToken);

    /// <summary>Makes a key like another one, which holds on for a while: time to bring the new one to its users.</summary>
    /// <param name="id">Public part of the old key.</param>
    /// <param name="overlap">How long the old key holds on, at most as long as it would anyway.</param>
    /// <param name="lifetime">How long the new key holds; null for no end.</param>
    /// <param name="cancellationToken">Stops before the commit.</param>
    /// <exception cref="CoatScanException">KEY_NOT_FOUND: there is no such key, or it does not hold any more.</exception>
    public Task<NewApiKey> RotateAsync(
        string id, TimeSpan overlap, TimeSpan? lifetime, CancellationToken cancellationToken = default) => database.WriteAsync(
        async (context, token) =>
        {
            var row = await GetAsync(context, id, token);
            var now = time.GetUtcNow();
            var old = ToKey(row);
            if (!old.HoldsAt(now))
            {
                throw NotFound(id, $"The key {id} does not hold any more; make a new one.");
            }

            var end = (now + overlap).UtcTicks;
            row.ExpireTimeTicks = Math.Min(row.ExpireTimeTicks ?? end, end);
            await AppendAsync(context, row, AuditChain.Change, token);
            return await AddAsync(context, old.Tenant, old.Scope, old.DisplayName, lifetime, token);
        },
        cancellationToken);

    private async Task<NewApiKey> AddAsync(
        FindingContext context,
        Tenant tenant,
        AccessScope scope,
        string displayName,
        TimeSpan? lifetime,
        CancellationToken cancellationToken)
    {
        var now = time.GetUtcNow();
        var (id, hash, text) = ApiKeySecret.Make();
        var row = new ApiKeyRow
        {
            Tenant = tenant.Id,
            Id = id,
            SecretHash = hash,
            Scope = scope.ToString(),
            DisplayName = displayName,
            CreateTimeTicks = now.UtcTicks,
            ExpireTimeTicks = (now + lifetime)?.UtcTicks,
        };
        context.Tenant = tenant.Id;
        context.ApiKeys.Add(row);
        await AppendAsync(context, row, AuditChain.Create, cancellationToken);
        return new NewApiKey(ToKey(row), text);
    }

    private async Task AppendAsync(
        FindingContext context, ApiKeyRow row, string action, CancellationToken cancellationToken)
    {
        // The operator acts on the tenant's key; the entry is the tenant's.
        context.Tenant = row.Tenant;
        await AuditChain.AppendAsync(
            context, time.GetUtcNow(), action, [ToKey(row).Name], AuditChain.Done, cancellationToken);
        await context.SaveChangesAsync(cancellationToken);
    }

    private static async Task<ApiKeyRow> GetAsync(FindingContext context, string id, CancellationToken cancellationToken) =>
        await context.ApiKeys.IgnoreQueryFilters().SingleOrDefaultAsync(row => row.Id == id, cancellationToken)
            ?? throw NotFound(id, $"There is no key {id}.");

    private static CoatScanException NotFound(string id, string message) => new(
        ErrorReason.KeyNotFound, message, "id", new Dictionary<string, string> { ["id"] = id });

    private static ApiKey ToKey(ApiKeyRow row) => new(
        row.Id,
        new Tenant(row.Tenant),
        Enum.Parse<AccessScope>(row.Scope),
        row.DisplayName,
        new DateTimeOffset(row.CreateTimeTicks, TimeSpan.Zero),
        ToTime(row.ExpireTimeTicks),
        ToTime(row.RevokeTimeTicks));

    private static DateTimeOffset? ToTime(long? ticks) => ticks is { } known ? new DateTimeOffset(known, TimeSpan.Zero) : null;
}
