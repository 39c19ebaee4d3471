namespace CoatScan.Metrics.Uncertainty;

/// <summary>A value and the half width of its 95 % interval.</summary>
internal readonly record struct Estimate(double Value, double HalfWidth)
{
    /// <summary>The same with one more cause of doubt that has nothing to do with the others.</summary>
    internal Estimate Widened(double halfWidth) =>
        this with { HalfWidth = Math.Sqrt((HalfWidth * HalfWidth) + (halfWidth * halfWidth)) };

    /// <summary>A multiple.</summary>
    internal Estimate Times(double factor) => new(Value * factor, HalfWidth * Math.Abs(factor));
}
