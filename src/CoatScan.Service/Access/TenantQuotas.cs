using System.Globalization;
using System.Threading.RateLimiting;
using CoatScan.Findings;
using CoatScan.Storage.Photos;
using Microsoft.Extensions.Options;

namespace CoatScan.Service.Access;

/// <summary>What the current tenant may still use.</summary>
internal sealed class TenantQuotas : IDisposable
{
    private static readonly TimeSpan Minute = TimeSpan.FromMinutes(1);

    private readonly TenantContext _tenants;
    private readonly QuotaOptions _options;
    private readonly PartitionedRateLimiter<string> _calls;

    /// <summary>Counts nothing yet.</summary>
    public TenantQuotas(TenantContext tenants, IOptions<QuotaOptions> options)
    {
        _tenants = tenants;
        _options = options.Value;
        _calls = PartitionedRateLimiter.Create<string, string>(tenant => CallsOf(tenant) is { } calls
            ? RateLimitPartition.GetTokenBucketLimiter(tenant, _ => new TokenBucketRateLimiterOptions
            {
                TokenLimit = calls,
                TokensPerPeriod = 1,
                ReplenishmentPeriod = Minute / calls,
                QueueLimit = 0,
            })
            : RateLimitPartition.GetNoLimiter(tenant));
    }

    /// <summary>What the current tenant may store.</summary>
    public PhotoAllowance Photos => new(
        Own(limits => limits.MaxPhotos) ?? _options.MaxPhotos, Own(limits => limits.MaxPhotoBytes) ?? _options.MaxPhotoBytes);

    /// <summary>Counts a call of the current tenant.</summary>
    /// <exception cref="CoatScanException">QUOTA_EXCEEDED: the calls of this minute are used up.</exception>
    public void CountCall()
    {
        var tenant = _tenants.Current.Id;
        using var lease = _calls.AttemptAcquire(tenant);
        if (lease.IsAcquired)
        {
            return;
        }

        var delay = lease.TryGetMetadata(MetadataName.RetryAfter, out var wait) ? wait : Minute;
        var limit = Text(CallsOf(tenant) ?? 0);
        var delayMs = Text((long)Math.Ceiling(delay.TotalMilliseconds));
        throw new CoatScanException(
            ErrorReason.QuotaExceeded,
            $"The {limit} calls per minute are used up; try again in {delayMs} ms.",
            metadata: new Dictionary<string, string>
            {
                ["quota"] = "calls_per_minute",
                ["limit"] = limit,
                [RetryAfterKey] = delayMs,
            });
    }

    /// <summary>Variable of a refusal that says when to try again, milliseconds.</summary>
    public const string RetryAfterKey = "retry_after_ms";

    /// <inheritdoc />
    public void Dispose() => _calls.Dispose();

    private int? CallsOf(string tenant) =>
        (_options.Tenants.TryGetValue(tenant, out var own) ? own.CallsPerMinute : null) ?? _options.CallsPerMinute;

    private long? Own(Func<QuotaLimits, long?> limit) =>
        _options.Tenants.TryGetValue(_tenants.Current.Id, out var own) ? limit(own) : null;

    private static string Text(long number) => number.ToString(CultureInfo.InvariantCulture);
}
