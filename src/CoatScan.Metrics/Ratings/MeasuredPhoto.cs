using CoatScan.Findings;

namespace CoatScan.Metrics.Ratings;

/// <summary>What was measured on one photo, by metric.</summary>
internal sealed class MeasuredPhoto(IEnumerable<Measurement> measurements, int photoIndex)
{
    private readonly Dictionary<string, Measurement> _values = measurements
        .Where(one => one.PhotoIndex == photoIndex && one.Value is not null)
        .ToDictionary(one => one.Metric, StringComparer.Ordinal);

    /// <summary>Number of the photo for people, from 1.</summary>
    internal int Number => photoIndex + 1;

    internal Measurement? this[string metric] => _values.GetValueOrDefault(metric);
}
