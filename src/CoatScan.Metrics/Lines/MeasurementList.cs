using CoatScan.Findings;
using CoatScan.Metrics.Uncertainty;

namespace CoatScan.Metrics.Lines;

/// <summary>Adds values of lines with and without millimeters to a list.</summary>
/// <param name="Scale">Scale of the planes; null without one.</param>
/// <param name="Target">The list that is added to.</param>
internal sealed record MeasurementList(LengthScale? Scale, List<Measurement> Target)
{
    /// <summary>A value, or the reason why there is none.</summary>
    internal void Add(string metric, string unit, Estimate value, string? reason) => Target.Add(
        reason is null
            ? Measurement.Of(metric, value.Value, unit, value.HalfWidth)
            : Measurement.Absent(metric, unit, reason));

    /// <summary>A length in pixels and in millimeters.</summary>
    internal void AddPx(string metric, string inMm, Estimate value, string? reason)
    {
        Add(metric, "{px}", value, reason);
        Add(inMm, "mm", InMm(value, Scale?.MmPerPx ?? 1.0), reason ?? NoScale);
    }

    /// <summary>A value per pixel and per millimeter.</summary>
    internal void AddPerPx(string metric, string perMm, Estimate value, string? reason)
    {
        Add(metric, "/{px}", value, reason);
        Add(perMm, "/mm", InMm(value, 1.0 / (Scale?.MmPerPx ?? 1.0)), reason ?? NoScale);
    }

    private string? NoScale => Scale is null ? AbsentReasons.NoScale : null;

    private Estimate InMm(Estimate value, double factor) =>
        value.Times(factor).Widened(Math.Abs(value.Value * factor) * (Scale?.RelativeUncertainty ?? 0.0));
}
