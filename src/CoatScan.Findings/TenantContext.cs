namespace CoatScan.Findings;

/// <summary>The tenant of the call in progress, and who acts for it; the one place that storage asks.</summary>
/// <remarks>
/// Flows with the call through awaits and into the tasks it starts. Whoever knows the credential enters the tenant before
/// the call goes on; work in the background enters the tenant of its row. Nobody takes it from a message or an address.
/// </remarks>
public sealed class TenantContext
{
    /// <summary>Who acts where nobody called: housekeeping and work on batches.</summary>
    public const string Service = "service";

    private readonly AsyncLocal<Acting?> _current = new();

    /// <summary>The tenant entered last; <see cref="Tenant.Local"/> where none was.</summary>
    public Tenant Current => _current.Value?.Tenant ?? Tenant.Local;

    /// <summary>Who acts, for the audit log: a kind of credential and its id, never a secret.</summary>
    public string Actor => _current.Value?.Actor ?? Service;

    /// <summary>Makes a tenant the current one until the result is disposed.</summary>
    public IDisposable Enter(Tenant tenant, string actor = Service)
    {
        var before = _current.Value;
        _current.Value = new Acting(tenant, actor);
        return new Exit(this, before);
    }

    private sealed record Acting(Tenant Tenant, string Actor);

    private sealed class Exit(TenantContext context, Acting? before) : IDisposable
    {
        public void Dispose() => context._current.Value = before;
    }
}
