using System.Text;
using System.Text.Encodings.Web;
using CoatScan.Findings;
using CoatScan.Storage.Keys;
using Microsoft.AspNetCore.Authentication;
using Microsoft.Extensions.Options;
using Microsoft.Net.Http.Headers;

namespace CoatScan.Service.Access;

/// <summary>Takes API keys from the header <c>Authorization: Bearer coatscan_...</c>; from browsers as the password of Basic.</summary>
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
    private const string Basic = "Basic ";

    /// <summary>What stands behind <c>Bearer</c>, or the password of <c>Basic</c>; empty without either.</summary>
    public static string CredentialOf(HttpRequest request)
    {
        var header = request.Headers[HeaderNames.Authorization].ToString();
        if (header.StartsWith(Bearer, StringComparison.OrdinalIgnoreCase))
        {
            return header[Bearer.Length..].Trim();
        }

        // A browser asks its user once and then sends the password with every call, whoever makes it.
        return header.StartsWith(Basic, StringComparison.OrdinalIgnoreCase) && OwnPage.Sent(request)
            ? PasswordOf(header[Basic.Length..].Trim())
            : "";
    }

    /// <inheritdoc />
    protected override async Task<AuthenticateResult> HandleAuthenticateAsync()
    {
        var text = CredentialOf(Request);
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

    private static string PasswordOf(string pair)
    {
        var bytes = new byte[pair.Length];
        if (!Convert.TryFromBase64String(pair, bytes, out var count))
        {
            return "";
        }

        var text = Encoding.UTF8.GetString(bytes, 0, count);
        var password = text[(text.IndexOf(':', StringComparison.Ordinal) + 1)..];

        // Keys only: a token is nothing that people type.
        return password.StartsWith(ApiKeySecret.Prefix, StringComparison.Ordinal) ? password : "";
    }
}
