using CoatScan.Findings;
using Microsoft.AspNetCore.Authentication;
using Microsoft.Extensions.Options;

namespace CoatScan.Service.Access;

/// <summary>Looks again whether the credential of a call still holds, for calls that last: a key may be revoked, a token may end meanwhile.</summary>
internal sealed class CredentialCheck(IServiceScopeFactory scopes, IOptions<AccessOptions> access)
{
    /// <summary>Refuses a call whose credential does not hold any more, or allows less than it has to.</summary>
    /// <param name="context">The call, which had its credential checked when it began.</param>
    /// <param name="needed">What it needs.</param>
    /// <exception cref="CoatScanException">UNAUTHENTICATED, or STORAGE_UNAVAILABLE where that cannot be found out.</exception>
    public async Task RequireHoldsAsync(HttpContext context, AccessScope needed)
    {
        if (!access.Value.IsOn)
        {
            return;
        }

        // A handler answers a call once and remembers; one of a new scope asks again.
        await using var scope = scopes.CreateAsyncScope();
        var handler = await scope.ServiceProvider.GetRequiredService<IAuthenticationHandlerProvider>()
            .GetHandlerAsync(context, AccessRegistration.SchemeFor(context, access.Value)).ConfigureAwait(false);
        var result = await handler!.AuthenticateAsync().ConfigureAwait(false);
        if (result.Failure is CoatScanException fault)
        {
            throw fault;
        }

        var (before, now) = (Caller.Of(context.User), result.Principal is { } principal ? Caller.Of(principal) : null);
        if (now is null || now.Scope is null || now.Scope < needed || now.Tenant != before?.Tenant)
        {
            throw new CoatScanException(
                ErrorReason.Unauthenticated, "The credential of this call does not hold any more: it has ended or was revoked meanwhile.");
        }
    }
}
