using System.Net;
using System.Text.Encodings.Web;
using CoatScan.Findings;
using Microsoft.AspNetCore.Authentication;
using Microsoft.Extensions.Options;

namespace CoatScan.Service.Access;

/// <summary>With access off: everybody on this machine is its one tenant and may do everything.</summary>
/// <remarks>
/// A page of a foreign site runs in a browser on this machine too. It cannot hide that: the browser says under which name the
/// service was called and from which page. Both must be this machine's.
/// </remarks>
internal sealed class LocalHandler(
    IOptionsMonitor<AuthenticationSchemeOptions> schemes,
    ILoggerFactory loggers,
    UrlEncoder encoder,
    IOptions<AccessOptions> access)
    : AuthenticationHandler<AuthenticationSchemeOptions>(schemes, loggers, encoder)
{
    /// <summary>Name of the scheme.</summary>
    public const string SchemeName = "Local";

    private static readonly Caller Everybody = new(Tenant.Local, AccessScope.Admin, "local");

    /// <inheritdoc />
    protected override Task<AuthenticateResult> HandleAuthenticateAsync() => Task.FromResult(
        access.Value.OffOnNetwork || (IsOwnName(Request.Host.Host) && OwnPage.Sent(Request))
            ? AuthenticateResult.Success(new AuthenticationTicket(Everybody.ToPrincipal(SchemeName), SchemeName))
            : AuthenticateResult.Fail(
                "Access is off, so only this machine is served: under a name such as localhost, and from no page of another site."));

    private static bool IsOwnName(string host) =>
        host.Equals("localhost", StringComparison.OrdinalIgnoreCase)
        || host.EndsWith(".localhost", StringComparison.OrdinalIgnoreCase)
        || (IPAddress.TryParse(host, out var address) && IPAddress.IsLoopback(address));
}
