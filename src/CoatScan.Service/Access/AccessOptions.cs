using System.ComponentModel.DataAnnotations;

namespace CoatScan.Service.Access;

/// <summary>Who may call, and how callers show who they are. Section <c>CoatScan:Access</c>; all off means that access is off.</summary>
public sealed class AccessOptions
{
    /// <summary>Name of the configuration section.</summary>
    public const string SectionName = "CoatScan:Access";

    /// <summary>Whether API keys are taken; <c>coatscan keys</c> makes them.</summary>
    public bool ApiKeys { get; set; }

    /// <summary>Address of the OpenID provider whose tokens are taken, https (http on this machine only); empty for none.</summary>
    public string JwtAuthority { get; set; } = "";

    /// <summary>Audience that a token must be for; required with <see cref="JwtAuthority"/>.</summary>
    public string JwtAudience { get; set; } = "";

    /// <summary>Claim of a token that holds the tenant's id.</summary>
    [Required]
    public string JwtTenantClaim { get; set; } = "tenant";

    /// <summary>Claim of a token that holds scopes: coatscan.read, coatscan.write, coatscan.admin.</summary>
    [Required]
    public string JwtScopeClaim { get; set; } = "scope";

    /// <summary>Client certificates that are taken; needs <see cref="TlsOptions"/>.</summary>
    public IList<ClientCertificateEntry> ClientCertificates { get; } = [];

    /// <summary>PEM file with the authorities whose client certificates are taken; empty takes pinned ones only.</summary>
    public string ClientAuthorityPath { get; set; } = "";

    /// <summary>Whether a service with access off may listen to other machines.</summary>
    public bool OffOnNetwork { get; set; }

    /// <summary>Whether callers have to show who they are.</summary>
    internal bool IsOn => ApiKeys || JwtAuthority.Length > 0 || ClientCertificates.Count > 0;
}
