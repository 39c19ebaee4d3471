using CoatScan.Findings;
using CoatScan.Storage;
using CoatScan.Storage.Keys;

namespace CoatScan.Service.Hosting;

/// <summary>The API keys of a service, for the operator of the machine; the service may run meanwhile.</summary>
/// <remarks>Every method throws <see cref="CoatScanException"/> with a sentence when the store cannot be used.</remarks>
public sealed class StoreKeys : IDisposable
{
    private const string Operator = "operator";

    private readonly TenantContext _tenants = new();
    private readonly FindingDatabase _database;
    private readonly ApiKeyStore _keys;
    private readonly TimeProvider _clock;

    private StoreKeys(StorageOptions options, TimeProvider clock)
    {
        _clock = clock;
        _database = new FindingDatabase(options, _tenants);
        _keys = new ApiKeyStore(_database, clock);
    }

    /// <summary>Opens the store of a data folder, and makes it if there is none.</summary>
    /// <param name="dataFolder">Folder of the database.</param>
    /// <param name="clock">Clock of the keys.</param>
    /// <param name="cancellationToken">Stops the opening.</param>
    public static async Task<StoreKeys> OpenAsync(string dataFolder, TimeProvider clock, CancellationToken cancellationToken)
    {
        var options = StoreLocation.Of(dataFolder);
        var keys = new StoreKeys(options, clock);
        try
        {
            await new FindingStore(keys._database, options, clock).MigrateAsync(cancellationToken).ConfigureAwait(false);
            return keys;
        }
        catch
        {
            keys.Dispose();
            throw;
        }
    }

    /// <summary>Makes a key; its text is seen only now.</summary>
    /// <param name="tenant">Whose data it opens.</param>
    /// <param name="scope">What it allows.</param>
    /// <param name="displayName">Name for people, at most 255 characters.</param>
    /// <param name="lifetime">How long it holds; null for no end.</param>
    /// <param name="cancellationToken">Stops before the commit.</param>
    public async Task<(KeyInfo Key, string Text)> CreateAsync(
        Tenant tenant, AccessScope scope, string displayName, TimeSpan? lifetime, CancellationToken cancellationToken)
    {
        using var acting = _tenants.Enter(tenant, Operator);
        var made = await _keys.CreateAsync(tenant, scope, displayName, lifetime, cancellationToken).ConfigureAwait(false);
        return (ToInfo(made.Key), made.Text);
    }

    /// <summary>Keys in the order of their making.</summary>
    /// <param name="tenant">Only keys of this tenant; null for all.</param>
    /// <param name="cancellationToken">Stops the read.</param>
    public async Task<IReadOnlyList<KeyInfo>> ListAsync(Tenant? tenant, CancellationToken cancellationToken) =>
        [.. (await _keys.ListAsync(tenant, cancellationToken).ConfigureAwait(false)).Select(ToInfo)];

    /// <summary>Ends a key at once.</summary>
    /// <param name="id">Public part.</param>
    /// <param name="cancellationToken">Stops before the commit.</param>
    /// <exception cref="CoatScanException">KEY_NOT_FOUND.</exception>
    public async Task<KeyInfo> RevokeAsync(string id, CancellationToken cancellationToken)
    {
        using var acting = _tenants.Enter(Tenant.Local, Operator);
        return ToInfo(await _keys.RevokeAsync(id, cancellationToken).ConfigureAwait(false));
    }

    /// <summary>Makes a key like another one, which holds on for a while.</summary>
    /// <param name="id">Public part of the old key.</param>
    /// <param name="overlap">How long the old key holds on.</param>
    /// <param name="lifetime">How long the new key holds; null for no end.</param>
    /// <param name="cancellationToken">Stops before the commit.</param>
    /// <exception cref="CoatScanException">KEY_NOT_FOUND.</exception>
    public async Task<(KeyInfo Key, string Text)> RotateAsync(
        string id, TimeSpan overlap, TimeSpan? lifetime, CancellationToken cancellationToken)
    {
        using var acting = _tenants.Enter(Tenant.Local, Operator);
        var made = await _keys.RotateAsync(id, overlap, lifetime, cancellationToken).ConfigureAwait(false);
        return (ToInfo(made.Key), made.Text);
    }

    /// <inheritdoc />
    public void Dispose() => _database.Dispose();

    private KeyInfo ToInfo(ApiKey key) => new(
        key.Id,
        key.Tenant.Id,
        key.Scope.ToString().ToLowerInvariant(),
        key.DisplayName,
        key.CreateTime,
        key.ExpireTime,
        key.RevokeTime,
        key.HoldsAt(_clock.GetUtcNow()));
}
