using System.Collections.Concurrent;
using System.Globalization;

namespace CoatScan.StressTests;

/// <summary>Times of calls, collected from many threads.</summary>
internal sealed class Latencies
{
    private readonly ConcurrentBag<double> _milliseconds = [];

    /// <summary>Number of calls.</summary>
    public int Count => _milliseconds.Count;

    /// <summary>Adds a call.</summary>
    public void Add(TimeSpan time) => _milliseconds.Add(time.TotalMilliseconds);

    /// <summary>All times in seconds, shortest first.</summary>
    public string AllSeconds =>
        string.Join(' ', _milliseconds.Order().Select(time => (time / 1000).ToString("0.0", CultureInfo.InvariantCulture)));

    /// <summary>The time that a share of all calls stayed within, milliseconds (nearest rank); 0 without calls.</summary>
    public double Percentile(double share)
    {
        var sorted = _milliseconds.Order().ToList();
        return sorted.Count == 0 ? 0 : sorted[Math.Clamp((int)Math.Ceiling(share * sorted.Count) - 1, 0, sorted.Count - 1)];
    }
}
