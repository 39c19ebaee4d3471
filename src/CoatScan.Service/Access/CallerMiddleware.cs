using CoatScan.Findings;
using Microsoft.AspNetCore.Authorization;

namespace CoatScan.Service.Access;

/// <summary>Enters the tenant of the credential for the rest of the call, and counts the call. The only place that does.</summary>
internal sealed class CallerMiddleware(
    RequestDelegate next, TenantContext tenants, TenantQuotas quotas, StatusWriter statuses)
{
    /// <summary>Serves one call.</summary>
    public async Task InvokeAsync(HttpContext context)
    {
        if (Caller.Of(context.User) is not { } caller || context.GetEndpoint()?.Metadata.GetMetadata<IAllowAnonymous>() is not null)
        {
            await next(context).ConfigureAwait(false);
            return;
        }

        using var tenant = tenants.Enter(caller.Tenant, caller.Actor);
        try
        {
            quotas.CountCall();
        }
        catch (CoatScanException refusal)
        {
            await statuses.FailAsync(context, refusal).ConfigureAwait(false);
            return;
        }

        await next(context).ConfigureAwait(false);
    }
}
