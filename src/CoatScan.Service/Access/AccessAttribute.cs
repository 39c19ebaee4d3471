using CoatScan.Findings;
using Microsoft.AspNetCore.Authorization;

namespace CoatScan.Service.Access;

/// <summary>Says what a caller needs for an rpc or a route. One without it is closed to everybody.</summary>
/// <param name="scope">The least scope of the credential.</param>
[AttributeUsage(AttributeTargets.Method)]
internal sealed class AccessAttribute(AccessScope scope) : AuthorizeAttribute(scope.ToString())
{
    /// <summary>The least scope of the credential.</summary>
    public AccessScope Scope { get; } = scope;

    /// <summary>Whether it must be a credential of the operator's own tenant, <see cref="Tenant.Local"/>.</summary>
    public bool OfOperator { get; init; }
}
