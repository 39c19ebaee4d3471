using CoatScan.Findings;
using CoatScan.Metrics.Uncertainty;

namespace CoatScan.Metrics.Lines;

/// <summary>Adds values of lines with and without millimeters to a list.</summary>
/// <param name="MmPerPx">Millimeters per pixel of the planes; null without a scale.</param>
/// <param name="Target">The list that is added to.</param>
internal sealed record MeasurementList(double? MmPerPx, List<Measurement> Target)
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
        Add(inMm, "mm", value.Times(MmPerPx ?? 1.0), reason ?? NoScale);
    }

    /// <summary>A value per pixel and per millimeter.</summary>
    internal void AddPerPx(string metric, string perMm, Estimate value, string? reason)
    {
        Add(metric, "/{px}", value, reason);
        Add(perMm, "/mm", value.Times(1.0 / (MmPerPx ?? 1.0)), reason ?? NoScale);
    }

    private string? NoScale => MmPerPx is null ? AbsentReasons.NoScale : null;
}
