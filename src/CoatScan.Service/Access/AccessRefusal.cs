using CoatScan.Findings;
using CoatScan.Storage;
using Grpc.AspNetCore.Server;
using Microsoft.AspNetCore.Authentication;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Authorization.Policy;

namespace CoatScan.Service.Access;

/// <summary>Says no in the contract's way: UNAUTHENTICATED or FORBIDDEN, with what is missing; the second is in the audit log.</summary>
internal sealed class AccessRefusal(StatusWriter statuses, AuditLog audit, TenantContext tenants)
    : IAuthorizationMiddlewareResultHandler
{
    /// <inheritdoc />
    public async Task HandleAsync(
        RequestDelegate next, HttpContext context, AuthorizationPolicy policy, PolicyAuthorizationResult authorizeResult)
    {
        if (authorizeResult.Succeeded || (!authorizeResult.Challenged && IsNothing(context.GetEndpoint())))
        {
            await next(context).ConfigureAwait(false);
            return;
        }

        if (Caller.Of(context.User) is not { } caller)
        {
            await statuses.FailAsync(context, await UnauthenticatedAsync(context).ConfigureAwait(false)).ConfigureAwait(false);
            return;
        }

        var error = (Exception)Forbidden(context, caller);
        try
        {
            await audit.ForbiddenAsync(context.Request.Path, context.RequestAborted).ConfigureAwait(false);
        }
        catch (CoatScanException fault)
        {
            // What cannot be written down is not answered as if it were.
            error = fault;
        }

        await statuses.FailAsync(context, error).ConfigureAwait(false);
    }

    // Whoever has a credential may learn that there is nothing: NOT_FOUND of a path, UNIMPLEMENTED of an rpc.
    private static bool IsNothing(Endpoint? endpoint) =>
        endpoint is null
        || (endpoint.Metadata.GetMetadata<GrpcMethodMetadata>() is null
            && endpoint is RouteEndpoint { RoutePattern.Parameters: [.., { Name: "unimplementedMethod" }] or [{ Name: "unimplementedMethod" }] });

    private static async Task<CoatScanException> UnauthenticatedAsync(HttpContext context)
    {
        // The handler has answered before and says the same again.
        var failure = (await context.AuthenticateAsync().ConfigureAwait(false)).Failure;
        return failure as CoatScanException ?? new CoatScanException(
            ErrorReason.Unauthenticated,
            failure switch
            {
                null => "This call needs a credential: an API key or a token in the header 'Authorization: Bearer ...'.",

                // Our own handlers fail with a sentence for the caller; what others say may tell too much.
                AuthenticationFailureException own => own.Message,
                _ => "The credential does not hold: it is unknown, has ended, or is meant for another service.",
            });
    }

    private CoatScanException Forbidden(HttpContext context, Caller caller)
    {
        var rule = context.GetEndpoint()?.Metadata.GetMetadata<AccessAttribute>();
        var has = caller.Scope?.ToString().ToLowerInvariant() ?? "none";
        var needed = rule?.Scope.ToString().ToLowerInvariant() ?? "none";
        return new CoatScanException(
            ErrorReason.Forbidden,
            rule switch
            {
                null => "This call has no access rule, so it is closed.",
                { OfOperator: true } => $"This call needs the scope {needed} of the tenant {Tenant.Local}.",
                _ => $"This call needs the scope {needed}; the credential has {has}.",
            },
            metadata: new Dictionary<string, string>
            {
                ["scope_needed"] = needed,
                ["scope"] = has,
                ["tenant"] = tenants.Current.Id,
            });
    }
}
