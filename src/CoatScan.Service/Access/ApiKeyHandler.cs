using System.Text.Encodings.Web;
using CoatScan.Findings;
using CoatScan.Storage.Keys;
using Microsoft.AspNetCore.Authentication;
using Microsoft.Extensions.Options;
using Microsoft.Net.Http.Headers;

namespace CoatScan.Service.Access;

/// <summary>Takes API keys from the header <c>Authorization: Bearer coatscan_...</c>.</summary>
internal sealed class ApiKeyHandler(
    IOptionsMonitor<AuthenticationSchemeOptions> schemes,
    ILoggerFactory loggers,
    UrlEncoder encoder,
    ApiKeyStore keys,
    IOptions<AccessOptions> access)
    : AuthenticationHandler<AuthenticationSchemeOptions>(schemes, loggers, encoder)
{
    /// <summary>Name of the scheme.</summary>
    public const string SchemeName = "ApiKey";

    private const string Bearer = "Bearer ";

    /// <summary>What stands behind <c>Bearer</c>; empty without it.</summary>
    public static string BearerOf(HttpRequest request)
    {
        var header = request.Headers[HeaderNames.Authorization].ToString();
        return header.StartsWith(Bearer, StringComparison.OrdinalIgnoreCase) ? header[Bearer.Length..].Trim() : "";
    }

    /// <inheritdoc />
    protected override async Task<AuthenticateResult> HandleAuthenticateAsync()
    {
        var text = BearerOf(Request);
        if (text.Length == 0)
        {
            return AuthenticateResult.NoResult();
        }

        try
        {
            if (!access.Value.ApiKeys || await keys.CheckAsync(text, Context.RequestAborted).ConfigureAwait(false) is not { } key)
            {
                return AuthenticateResult.Fail("The API key does not hold: it is unknown, has ended or was revoked.");
            }

            var caller = new Caller(key.Tenant, key.Scope, key.Name);
            return AuthenticateResult.Success(new AuthenticationTicket(caller.ToPrincipal(SchemeName), SchemeName));
        }
        catch (CoatScanException fault)
        {
            // The store does not answer: that is no fault of the key, and the caller is told so.
            return AuthenticateResult.Fail(fault);
        }
    }
}
