using System.Diagnostics.Metrics;

namespace CoatScan.Service.Telemetry;

/// <summary>What the host counts beside the inspection's own metrics.</summary>
internal static class ServiceTelemetry
{
    /// <summary>Name of the meter.</summary>
    public const string MeterName = "CoatScan.Service";

    private static readonly Meter Meter = new(MeterName);

    private static readonly Counter<long> Refusals =
        Meter.CreateCounter<long>("coatscan.refusals", "{request}", "Requests refused, by reason.");

    public static void Refused(string reason) =>
        Refusals.Add(1, new KeyValuePair<string, object?>("reason", reason));
}
