using CoatScan.Findings;

namespace CoatScan.Service.Access;

/// <summary>One client certificate, or those of one subject, and what it opens.</summary>
public sealed class ClientCertificateEntry
{
    /// <summary>SHA-256 of the certificate, 64 hex digits; or empty with <see cref="Subject"/>.</summary>
    public string Sha256 { get; set; } = "";

    /// <summary>Common name that an authority of <c>ClientAuthorityPath</c> vouches for; or empty with <see cref="Sha256"/>.</summary>
    public string Subject { get; set; } = "";

    /// <summary>Id of the tenant.</summary>
    public string Tenant { get; set; } = "";

    /// <summary>What it allows.</summary>
    public AccessScope Scope { get; set; }
}
