namespace CoatScan.Metrics.Shapes;

/// <summary>Which neighbors belong together.</summary>
public enum Connectivity
{
    /// <summary>Those that share a side.</summary>
    Four,

    /// <summary>Those that share a side or a corner.</summary>
    Eight,
}
