using System.Security.Claims;
using CoatScan.Findings;

namespace CoatScan.Service.Access;

/// <summary>Who calls, as a credential says it.</summary>
/// <param name="Tenant">Whose data.</param>
/// <param name="Scope">What is allowed; null if the credential names no scope of ours.</param>
/// <param name="Actor">Kind and id of the credential, for the audit log.</param>
internal sealed record Caller(Tenant Tenant, AccessScope? Scope, string Actor)
{
    private const string TenantClaim = "coatscan:tenant";
    private const string ScopeClaim = "coatscan:scope";
    private const string ActorClaim = "coatscan:actor";

    /// <summary>The caller of a principal that <see cref="ToPrincipal"/> made; null for anybody else.</summary>
    public static Caller? Of(ClaimsPrincipal principal) =>
        principal.Identity is { IsAuthenticated: true } && principal.FindFirstValue(TenantClaim) is { } tenant
            ? new Caller(
                new Tenant(tenant),
                Enum.TryParse<AccessScope>(principal.FindFirstValue(ScopeClaim), out var scope) ? scope : null,
                principal.FindFirstValue(ActorClaim) ?? "")
            : null;

    /// <summary>The principal that stands for this caller.</summary>
    /// <param name="scheme">How it was authenticated.</param>
    public ClaimsPrincipal ToPrincipal(string scheme)
    {
        var identity = new ClaimsIdentity(scheme);
        identity.AddClaim(new Claim(TenantClaim, Tenant.Id));
        identity.AddClaim(new Claim(ActorClaim, Actor));
        if (Scope is { } scope)
        {
            identity.AddClaim(new Claim(ScopeClaim, scope.ToString()));
        }

        return new ClaimsPrincipal(identity);
    }
}
