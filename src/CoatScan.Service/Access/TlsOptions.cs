namespace CoatScan.Service.Access;

/// <summary>The service's own certificate. Section <c>CoatScan:Tls</c>; empty means that both ports speak without TLS.</summary>
public sealed class TlsOptions
{
    /// <summary>Name of the configuration section.</summary>
    public const string SectionName = "CoatScan:Tls";

    /// <summary>PEM file with the certificate, and those between it and its authority.</summary>
    public string CertificatePath { get; set; } = "";

    /// <summary>PEM file with its private key.</summary>
    public string KeyPath { get; set; } = "";

    /// <summary>Whether the ports speak TLS.</summary>
    internal bool IsOn => CertificatePath.Length > 0;
}
