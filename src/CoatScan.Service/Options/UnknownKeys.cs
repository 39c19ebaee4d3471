using CoatScan.Service.Access;

namespace CoatScan.Service.Options;

/// <summary>Finds keys of our section that nobody reads: a typing error must not pass as a default.</summary>
internal static class UnknownKeys
{
    private const string Root = "CoatScan";

    private static readonly Dictionary<string, HashSet<string>> Known = new(StringComparer.OrdinalIgnoreCase)
    {
        ["Access"] = new(StringComparer.OrdinalIgnoreCase)
        {
            nameof(AccessOptions.ApiKeys),
            nameof(AccessOptions.JwtAuthority),
            nameof(AccessOptions.JwtAudience),
            nameof(AccessOptions.JwtTenantClaim),
            nameof(AccessOptions.JwtScopeClaim),
            nameof(AccessOptions.ClientCertificates),
            nameof(AccessOptions.ClientAuthorityPath),
            nameof(AccessOptions.OffOnNetwork),
        },
        ["Tls"] = new(StringComparer.OrdinalIgnoreCase) { nameof(TlsOptions.CertificatePath), nameof(TlsOptions.KeyPath) },
        ["Quotas"] = new(StringComparer.OrdinalIgnoreCase)
        {
            nameof(QuotaOptions.CallsPerMinute),
            nameof(QuotaOptions.MaxPhotos),
            nameof(QuotaOptions.MaxPhotoBytes),
            nameof(QuotaOptions.Tenants),
        },
        ["Analysis"] = new(StringComparer.OrdinalIgnoreCase)
        {
            nameof(AnalysisOptions.Workers),
            nameof(AnalysisOptions.QueueLength),
            nameof(AnalysisOptions.MaxMegapixelsWaiting),
            nameof(AnalysisOptions.StreamInFlight),
            nameof(AnalysisOptions.MaxInlineBytes),
            nameof(AnalysisOptions.MaxPanelBytes),
            nameof(AnalysisOptions.MaxMegapixelsInFlight),
        },
        ["Batches"] = new(StringComparer.OrdinalIgnoreCase)
        {
            nameof(BatchOptions.Workers),
            nameof(BatchOptions.HandOut),
            nameof(BatchOptions.DecodeInChildren),
            nameof(BatchOptions.ChildMemoryMb),
            nameof(BatchOptions.ChildCpuSeconds),
        },
        ["Broker"] = new(StringComparer.OrdinalIgnoreCase) { nameof(BrokerOptions.Uri), nameof(BrokerOptions.Prefix) },
        ["Models"] = new(StringComparer.OrdinalIgnoreCase) { nameof(ModelsOptions.Path) },
        ["Photos"] = new(StringComparer.OrdinalIgnoreCase)
        {
            nameof(PhotoOptions.MaxUploadBytes),
            nameof(PhotoOptions.MaxUploads),
            nameof(PhotoOptions.IdleTimeoutMs),
            nameof(PhotoOptions.TotalTimeoutMs),
            nameof(PhotoOptions.MinBytesPerSecond),
            nameof(PhotoOptions.NoteSeenBefore),
        },
        ["Storage"] = new(StringComparer.OrdinalIgnoreCase)
        {
            nameof(StorageSettings.Engine),
            nameof(StorageSettings.Connection),
            nameof(StorageSettings.Path),
            nameof(StorageSettings.RetentionDays),
            nameof(StorageSettings.PhotoPath),
            nameof(StorageSettings.PhotoRetentionDays),
        },
    };

    /// <summary>Full names of the unknown keys, in order.</summary>
    public static IReadOnlyList<string> Find(IConfiguration configuration)
    {
        var unknown = new List<string>();
        foreach (var section in configuration.GetSection(Root).GetChildren())
        {
            if (!Known.TryGetValue(section.Key, out var keys))
            {
                unknown.Add(section.Path);
                continue;
            }

            foreach (var key in section.GetChildren())
            {
                if (!keys.Contains(key.Key))
                {
                    unknown.Add(key.Path);
                }
            }
        }

        return unknown;
    }
}
