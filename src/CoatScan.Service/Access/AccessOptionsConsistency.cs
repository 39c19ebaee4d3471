using CoatScan.Findings;
using Microsoft.Extensions.Options;

namespace CoatScan.Service.Access;

/// <summary>Checks what no single field can tell.</summary>
internal sealed class AccessOptionsConsistency(IOptions<TlsOptions> tls) : IValidateOptions<AccessOptions>
{
    private const int Sha256HexDigits = 64;

    /// <inheritdoc />
    public ValidateOptionsResult Validate(string? name, AccessOptions options)
    {
        var faults = JwtFaults(options).Concat(CertificateFaults(options)).Select(fault => $"{AccessOptions.SectionName}: {fault}").ToList();
        return faults.Count == 0 ? ValidateOptionsResult.Success : ValidateOptionsResult.Fail(faults);
    }

    private static IEnumerable<string> JwtFaults(AccessOptions options)
    {
        if (options.JwtAuthority.Length == 0)
        {
            yield break;
        }

        if (!Uri.TryCreate(options.JwtAuthority, UriKind.Absolute, out var authority)
            || !(authority.Scheme == Uri.UriSchemeHttps || (authority.Scheme == Uri.UriSchemeHttp && authority.IsLoopback)))
        {
            yield return $"JwtAuthority must be an https address, or http on this machine, not '{options.JwtAuthority}'.";
        }

        if (options.JwtAudience.Length == 0)
        {
            yield return "JwtAudience must be set with JwtAuthority: a token made for somebody else must not open this service.";
        }
    }

    private IEnumerable<string> CertificateFaults(AccessOptions options)
    {
        if (options.ClientCertificates.Count > 0 && !tls.Value.IsOn)
        {
            yield return "ClientCertificates needs TLS: set CoatScan:Tls:CertificatePath and CoatScan:Tls:KeyPath.";
        }

        for (var index = 0; index < options.ClientCertificates.Count; index++)
        {
            var entry = options.ClientCertificates[index];
            if (entry.Sha256.Length > 0 == entry.Subject.Length > 0)
            {
                yield return $"ClientCertificates:{index} must have either Sha256 or Subject.";
            }

            if (entry.Sha256.Length > 0 && (entry.Sha256.Length != Sha256HexDigits || !entry.Sha256.All(char.IsAsciiHexDigit)))
            {
                yield return $"ClientCertificates:{index}:Sha256 must be {Sha256HexDigits} hex digits.";
            }

            if (entry.Subject.Length > 0 && options.ClientAuthorityPath.Length == 0)
            {
                yield return $"ClientCertificates:{index}:Subject needs ClientAuthorityPath: anybody can write a name.";
            }

            if (!Tenant.IsId(entry.Tenant))
            {
                yield return $"ClientCertificates:{index}:Tenant must be 1 to {Tenant.MaximumIdLength} letters, digits, '-' or '_'.";
            }
        }
    }
}
