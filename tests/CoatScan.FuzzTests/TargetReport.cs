namespace CoatScan.FuzzTests;

/// <summary>What came of one target.</summary>
internal sealed class TargetReport(string name)
{
    /// <summary>Name of the target.</summary>
    public string Name => name;

    /// <summary>Inputs given.</summary>
    public long Runs { get; set; }

    /// <summary>How often each outcome came.</summary>
    public SortedDictionary<string, long> Outcomes { get; } = new(StringComparer.Ordinal);

    /// <summary>Most processor time that one input took.</summary>
    public TimeSpan Slowest { get; set; }

    /// <summary>Inputs to change: seeds, kept ones, and those with an outcome that was new.</summary>
    public List<byte[]> Corpus { get; } = [];
}
