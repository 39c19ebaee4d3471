namespace CoatScan.Metrics;

/// <summary>Identity of the metric set: values are comparable only within one version.</summary>
public static class MetricSet
{
    /// <summary>Version; raised whenever a metric's definition changes its values.</summary>
    public const string Version = "6";
}
