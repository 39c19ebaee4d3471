using System.Security.Claims;
using CoatScan.Findings;
using Microsoft.AspNetCore.Authentication.JwtBearer;

namespace CoatScan.Service.Access;

/// <summary>Takes tokens of an OpenID provider; keys come from its discovery document.</summary>
internal static class JwtAccess
{
    private const string ScopePrefix = "coatscan.";

    /// <summary>Sets the check up; signature, issuer, audience and times are the framework's.</summary>
    public static void Configure(JwtBearerOptions options, AccessOptions access)
    {
        options.Authority = access.JwtAuthority;
        options.Audience = access.JwtAudience;
        options.RequireHttpsMetadata = !new Uri(access.JwtAuthority).IsLoopback;
        options.MapInboundClaims = false;
        options.TokenValidationParameters.ClockSkew = TimeSpan.FromSeconds(30);
        options.Events = new JwtBearerEvents
        {
            OnTokenValidated = context =>
            {
                var caller = CallerOf(context.Principal!, access);
                context.Principal = caller?.ToPrincipal(JwtBearerDefaults.AuthenticationScheme);
                if (caller is null)
                {
                    context.Fail($"The token names no tenant in the claim {access.JwtTenantClaim}.");
                }

                return Task.CompletedTask;
            },
        };
    }

    private static Caller? CallerOf(ClaimsPrincipal token, AccessOptions access)
    {
        var tenant = token.FindAll(access.JwtTenantClaim).Select(claim => claim.Value).ToList();

        // A token for two tenants is one for none: nobody but the credential could say which.
        return tenant is [var id] && Tenant.IsId(id)
            ? new Caller(new Tenant(id), ScopeOf(token, access), $"tokens/{token.FindFirstValue("sub") ?? "unknown"}")
            : null;
    }

    // One claim with words between blanks (RFC 8693), or several claims.
    private static AccessScope? ScopeOf(ClaimsPrincipal token, AccessOptions access) => token.FindAll(access.JwtScopeClaim)
        .SelectMany(claim => claim.Value.Split(' ', StringSplitOptions.RemoveEmptyEntries))
        .Select(word => (AccessScope?)(word switch
        {
            ScopePrefix + "read" => AccessScope.Read,
            ScopePrefix + "write" => AccessScope.Write,
            ScopePrefix + "admin" => AccessScope.Admin,
            _ => null,
        }))
        .Max();
}
