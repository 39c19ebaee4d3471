using CoatScan.Findings;
using Microsoft.Extensions.Options;

namespace CoatScan.Service.Access;

/// <summary>Holds <see cref="QuotaOptions"/> to its ranges.</summary>
internal sealed class QuotaOptionsConsistency : IValidateOptions<QuotaOptions>
{
    private const int MaxCallsPerMinute = 1_000_000;

    /// <inheritdoc />
    public ValidateOptionsResult Validate(string? name, QuotaOptions options)
    {
        var faults = Faults(QuotaOptions.SectionName, options)
            .Concat(options.Tenants.SelectMany(one => Faults($"{QuotaOptions.SectionName}:Tenants:{one.Key}", one.Value)))
            .Concat(options.Tenants.Keys.Where(id => !Tenant.IsId(id)).Select(
                id => $"{QuotaOptions.SectionName}:Tenants: '{id}' is no id of a tenant."))
            .ToList();
        return faults.Count == 0 ? ValidateOptionsResult.Success : ValidateOptionsResult.Fail(faults);
    }

    private static IEnumerable<string> Faults(string section, QuotaLimits limits)
    {
        if (limits.CallsPerMinute is < 1 or > MaxCallsPerMinute)
        {
            yield return $"{section}:CallsPerMinute is {limits.CallsPerMinute}; it must be 1 to {MaxCallsPerMinute}.";
        }

        if (limits.MaxPhotos < 0)
        {
            yield return $"{section}:MaxPhotos is {limits.MaxPhotos}; it must be 0 or more.";
        }

        if (limits.MaxPhotoBytes < 0)
        {
            yield return $"{section}:MaxPhotoBytes is {limits.MaxPhotoBytes}; it must be 0 or more.";
        }
    }
}
