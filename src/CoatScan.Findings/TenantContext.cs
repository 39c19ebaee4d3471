namespace CoatScan.Findings;

/// <summary>The tenant of the call in progress; the one place that storage asks.</summary>
/// <remarks>
/// Flows with the call through awaits and into the tasks it starts. Whoever knows the credential enters the tenant before
/// the call goes on; work in the background enters the tenant of its row. Nobody takes it from a message or an address.
/// </remarks>
public sealed class TenantContext
{
    private readonly AsyncLocal<Tenant?> _current = new();

    /// <summary>The tenant entered last; <see cref="Tenant.Local"/> where none was.</summary>
    public Tenant Current => _current.Value ?? Tenant.Local;

    /// <summary>Makes a tenant the current one until the result is disposed.</summary>
    public IDisposable Enter(Tenant tenant)
    {
        var before = _current.Value;
        _current.Value = tenant;
        return new Exit(this, before);
    }

    private sealed class Exit(TenantContext context, Tenant? before) : IDisposable
    {
        public void Dispose() => context._current.Value = before;
    }
}
