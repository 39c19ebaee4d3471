using System.Net;
using System.Net.Security;
using System.Security.Authentication;
using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;
using CoatScan.Service.Hosting;
using Microsoft.AspNetCore.Server.Kestrel.Core;
using Microsoft.AspNetCore.Server.Kestrel.Https;

namespace CoatScan.Service.Access;

/// <summary>Where the service may listen, and whether it speaks TLS there.</summary>
internal static class NetworkRule
{
    /// <summary>Refuses to let other machines in when nobody asks them who they are.</summary>
    /// <exception cref="StartupException">Access is off, the address is not this machine's, and nobody said that this is meant.</exception>
    public static void Check(IPAddress address, AccessOptions access)
    {
        if (!access.IsOn && !access.OffOnNetwork && !IPAddress.IsLoopback(address))
        {
            throw new StartupException(
                $"Access is off, and {address} lets other machines in. Turn API keys on (--api-keys), configure "
                + $"{AccessOptions.SectionName}, or say --no-access-control if everybody who reaches this address may do everything.");
        }
    }

    /// <summary>Makes an endpoint speak TLS and ask for, but not require, a client certificate.</summary>
    /// <remarks>Who may call with which certificate is decided behind the handshake, where the answer can say why.</remarks>
    public static void UseTls(ListenOptions listen, X509Certificate2Collection chain, AccessOptions access) =>
        listen.UseHttps(https =>
        {
            https.ServerCertificate = chain[0];
            https.ServerCertificateChain = chain;
            https.SslProtocols = SslProtocols.Tls12 | SslProtocols.Tls13;
            if (access.ClientCertificates.Count > 0)
            {
                https.ClientCertificateMode = ClientCertificateMode.AllowCertificate;
                https.ClientCertificateValidation = (_, _, errors) => errors != SslPolicyErrors.RemoteCertificateNotAvailable;
            }
        });

    /// <summary>The service's certificate, its key, and those between it and its authority; empty without TLS.</summary>
    /// <exception cref="StartupException">A file cannot be read.</exception>
    public static X509Certificate2Collection Certificates(TlsOptions tls)
    {
        var chain = new X509Certificate2Collection();
        if (!tls.IsOn)
        {
            return chain;
        }

        try
        {
            chain.ImportFromPemFile(tls.CertificatePath);
            chain.RemoveAt(0);
            chain.Insert(0, X509Certificate2.CreateFromPemFile(tls.CertificatePath, tls.KeyPath));
            return chain;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or CryptographicException or ArgumentException)
        {
            throw new StartupException(
                $"The certificate {tls.CertificatePath} with the key '{tls.KeyPath}' cannot be used: {e.Message}", e);
        }
    }
}
