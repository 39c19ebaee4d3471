using CoatScan.Findings;
using Microsoft.AspNetCore.Authorization;

namespace CoatScan.Service.Access;

/// <summary>The access of a route, in one line where it is mapped. <c>AllowAnonymous()</c> opens one to everybody.</summary>
internal static class AccessRules
{
    /// <summary>Policy of what belongs to no tenant, such as metrics over all of them.</summary>
    public const string Operator = "Operator";

    /// <summary>Needs a credential with at least a scope.</summary>
    public static TBuilder RequireAccess<TBuilder>(this TBuilder route, AccessScope scope)
        where TBuilder : IEndpointConventionBuilder => route.RequireAuthorization(new AccessAttribute(scope));

    /// <summary>Needs an admin credential of the operator's own tenant, <see cref="Tenant.Local"/>.</summary>
    public static TBuilder RequireOperator<TBuilder>(this TBuilder route)
        where TBuilder : IEndpointConventionBuilder =>
        route.RequireAuthorization(new AccessAttribute(AccessScope.Admin) { OfOperator = true, Policy = Operator });

    /// <summary>Defines the policies.</summary>
    public static void Define(AuthorizationOptions options)
    {
        foreach (var scope in Enum.GetValues<AccessScope>())
        {
            options.AddPolicy(scope.ToString(), policy => policy.RequireAuthenticatedUser().RequireAssertion(
                context => Caller.Of(context.User) is { } caller && caller.Scope >= scope));
        }

        options.AddPolicy(Operator, policy => policy.RequireAuthenticatedUser().RequireAssertion(
            context => Caller.Of(context.User) is { Scope: AccessScope.Admin } caller && caller.Tenant == Tenant.Local));

        // What nobody gave a rule is closed.
        options.FallbackPolicy = new AuthorizationPolicyBuilder().RequireAuthenticatedUser().RequireAssertion(_ => false).Build();
    }
}
