using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;
using CoatScan.Findings;
using CoatScan.Service.Hosting;
using Microsoft.AspNetCore.Authentication.Certificate;

namespace CoatScan.Service.Access;

/// <summary>Takes client certificates: pinned ones, and those whose name an authority of ours vouches for.</summary>
internal static class CertificateAccess
{
    /// <summary>Sets the check up; validity, purpose and chain are the framework's.</summary>
    /// <exception cref="StartupException">The file of the authorities cannot be read.</exception>
    public static void Configure(CertificateAuthenticationOptions options, AccessOptions access)
    {
        // Authorities of one's own seldom publish lists of what they took back: entries are taken out of the configuration.
        options.RevocationMode = X509RevocationMode.NoCheck;
        options.AllowedCertificateTypes = CertificateTypes.SelfSigned;
        if (access.ClientAuthorityPath.Length > 0)
        {
            options.AllowedCertificateTypes = CertificateTypes.All;
            options.ChainTrustValidationMode = X509ChainTrustMode.CustomRootTrust;
            options.CustomTrustStore = Authorities(access.ClientAuthorityPath);
        }

        options.Events = new CertificateAuthenticationEvents
        {
            OnCertificateValidated = context =>
            {
                if (CallerOf(context.ClientCertificate, access) is { } caller)
                {
                    context.Principal = caller.ToPrincipal(CertificateAuthenticationDefaults.AuthenticationScheme);
                    context.Success();
                }
                else
                {
                    context.Fail("The client certificate is none of those that are taken.");
                }

                return Task.CompletedTask;
            },
        };
    }

    private static Caller? CallerOf(X509Certificate2 certificate, AccessOptions access)
    {
        var digest = certificate.GetCertHashString(HashAlgorithmName.SHA256);
        var selfSigned = certificate.SubjectName.RawData.AsSpan().SequenceEqual(certificate.IssuerName.RawData);
        var subject = certificate.GetNameInfo(X509NameType.SimpleName, forIssuer: false);
        var entry = access.ClientCertificates.FirstOrDefault(one =>
            one.Sha256.Length > 0
                ? one.Sha256.Equals(digest, StringComparison.OrdinalIgnoreCase)

                // Who signs itself vouches for no name.
                : !selfSigned && one.Subject == subject);
        return entry is null ? null : new Caller(new Tenant(entry.Tenant), entry.Scope, $"certificates/{digest}");
    }

    private static X509Certificate2Collection Authorities(string path)
    {
        try
        {
            var authorities = new X509Certificate2Collection();
            authorities.ImportFromPemFile(path);
            return authorities.Count > 0 ? authorities : throw new StartupException($"There is no certificate in {path}.");
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or CryptographicException)
        {
            throw new StartupException($"The authorities of client certificates in {path} cannot be read: {e.Message}", e);
        }
    }
}
