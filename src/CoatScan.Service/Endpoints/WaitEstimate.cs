namespace CoatScan.Service.Endpoints;

/// <summary>Moving averages of what calls really waited and took, and what follows from them for the next.</summary>
/// <remarks>Thread safe.</remarks>
/// <param name="jitter">Spreads the delays, so that callers who were refused together do not come back together.</param>
internal sealed class WaitEstimate(Random jitter)
{
    /// <summary>Shortest delay that is asked for.</summary>
    public static readonly TimeSpan ShortestDelay = TimeSpan.FromMilliseconds(200);

    /// <summary>Longest delay that is asked for.</summary>
    public static readonly TimeSpan LongestDelay = TimeSpan.FromSeconds(10);

    // A delay is made up to this much longer than the wait, and the longest wait counts as this much less.
    private const double MostJitter = 0.25;

    // Share of the newest value in an average: half of what it says comes from the last five values.
    private const double Newest = 0.13;

    // Few enough that a quick photo among large ones is forgotten soon.
    private const int ServicesRemembered = 16;

    private readonly Lock _lock = new();
    private readonly Queue<TimeSpan> _services = new();
    private TimeSpan? _meanWait;
    private TimeSpan? _meanService;

    /// <summary>A call got its worker.</summary>
    /// <param name="wait">How long it waited in the queue.</param>
    public void Waited(TimeSpan wait)
    {
        lock (_lock)
        {
            _meanWait = Moved(_meanWait, wait);
        }
    }

    /// <summary>A call was served to its end.</summary>
    /// <param name="service">How long its worker was busy with it.</param>
    public void Served(TimeSpan service)
    {
        lock (_lock)
        {
            _meanService = Moved(_meanService, service);
            _services.Enqueue(service);
            if (_services.Count > ServicesRemembered)
            {
                _services.Dequeue();
            }
        }
    }

    /// <summary>The least that a call takes a worker, after the last calls; 0 as long as nobody knows.</summary>
    public TimeSpan QuickestService
    {
        get
        {
            lock (_lock)
            {
                return _services.Count > 0 ? _services.Min() : TimeSpan.Zero;
            }
        }
    }

    /// <summary>When a call that is refused now should come again: what calls waited of late, or took where none waited.</summary>
    public TimeSpan RetryDelay()
    {
        lock (_lock)
        {
            var wait = _meanWait ?? _meanService ?? ShortestDelay;
            var bounded = Math.Clamp(wait.TotalMilliseconds, ShortestDelay.TotalMilliseconds, LongestDelay.TotalMilliseconds / (1 + MostJitter));
            return TimeSpan.FromMilliseconds(bounded * (1 + (jitter.NextDouble() * MostJitter)));
        }
    }

    private static TimeSpan Moved(TimeSpan? mean, TimeSpan value) => mean is { } before ? before + ((value - before) * Newest) : value;
}
