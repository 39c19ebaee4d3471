namespace CoatScan.Service.Access;

/// <summary>What one tenant may use. Section <c>CoatScan:Quotas</c>; what is not set has no limit.</summary>
public sealed class QuotaOptions : QuotaLimits
{
    /// <summary>Name of the configuration section.</summary>
    public const string SectionName = "CoatScan:Quotas";

    /// <summary>Limits of single tenants, by id; what is not set there is as for all.</summary>
    public IDictionary<string, QuotaLimits> Tenants { get; } = new Dictionary<string, QuotaLimits>();
}
