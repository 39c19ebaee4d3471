namespace CoatScan.Findings;

/// <summary>One measured quantity of one photo: a value, or the reason why there is none.</summary>
public sealed record Measurement
{
    private Measurement()
    {
    }

    /// <summary>Id of the metric, for example <c>spot_count</c>.</summary>
    public string Metric { get; private init; } = "";

    /// <summary>The value; null exactly when <see cref="AbsentReason"/> is set. Never NaN or infinite.</summary>
    public double? Value { get; private init; }

    /// <summary>UCUM unit code; <c>1</c> for a ratio or a count.</summary>
    public string Unit { get; private init; } = "1";

    /// <summary>Half width of the 95 % interval in <see cref="Unit"/>; null if unknown.</summary>
    public double? Uncertainty { get; private init; }

    /// <summary>Why there is no value; null when there is one.</summary>
    public string? AbsentReason { get; private init; }

    /// <summary>Index into the finding's photos, from 0.</summary>
    public int PhotoIndex { get; init; }

    /// <summary>A value that was measured.</summary>
    /// <exception cref="ArgumentException">The value is not finite: absent must say why instead.</exception>
    public static Measurement Of(string metric, double value, string unit, double? uncertainty = null)
    {
        if (!double.IsFinite(value))
        {
            throw new ArgumentException($"{metric} is not finite; state it as absent.", nameof(value));
        }

        return new() { Metric = metric, Value = value, Unit = unit, Uncertainty = uncertainty };
    }

    /// <summary>A quantity that the photo cannot support.</summary>
    public static Measurement Absent(string metric, string unit, string reason) =>
        new() { Metric = metric, Unit = unit, AbsentReason = reason };
}
