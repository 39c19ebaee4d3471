namespace CoatScan.Metrics.Features;

/// <summary>Takes features one by one with their names, so that name and value cannot drift apart.</summary>
internal sealed class FeatureWriter
{
    private const float LargestMagnitude = 1e6f;

    private readonly List<string> _names = [];
    private readonly List<float> _values = [];

    internal IReadOnlyList<string> Names => _names;

    internal IReadOnlyList<float> Values => _values;

    /// <summary>Adds a feature. A ratio without a denominator comes as NaN and counts as 0: no sign of the thing.</summary>
    internal void Add(string name, double value)
    {
        _names.Add(name);
        _values.Add(double.IsNaN(value) ? 0.0f : Math.Clamp((float)value, -LargestMagnitude, LargestMagnitude));
    }

    /// <summary>Adds the decimal logarithm of a strength that is 0 or more; the floor stands for nothing.</summary>
    internal void AddLog(string name, double value, double floor) => Add(name, Math.Log10(Math.Max(value, 0.0) + floor));
}
