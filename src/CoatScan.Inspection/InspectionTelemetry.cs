using System.Diagnostics;
using System.Diagnostics.Metrics;
using CoatScan.Findings;

namespace CoatScan.Inspection;

/// <summary>One span and one duration a stage; counts of photos and verdicts.</summary>
public static class InspectionTelemetry
{
    /// <summary>Name of the activity source and of the meter.</summary>
    public const string SourceName = "CoatScan.Inspection";

    private static readonly ActivitySource Source = new(SourceName);
    private static readonly Meter Meter = new(SourceName);

    private static readonly Counter<long> Photos =
        Meter.CreateCounter<long>("coatscan.photos", "{photo}", "Photos looked at.");

    private static readonly Counter<long> Verdicts =
        Meter.CreateCounter<long>("coatscan.verdicts", "{finding}", "Findings, by verdict.");

    private static readonly Histogram<double> StageDuration =
        Meter.CreateHistogram<double>("coatscan.stage.duration", "s", "Time a stage took.");

    /// <summary>Runs one stage inside its span and records how long it took.</summary>
    internal static T Stage<T>(string name, Func<T> run)
    {
        using var activity = Source.StartActivity(name);
        var start = Stopwatch.GetTimestamp();
        try
        {
            return run();
        }
        catch (Exception e) when (e is not OperationCanceledException)
        {
            activity?.SetStatus(ActivityStatusCode.Error, e.GetType().Name);
            throw;
        }
        finally
        {
            StageDuration.Record(
                Stopwatch.GetElapsedTime(start).TotalSeconds,
                new KeyValuePair<string, object?>("stage", name));
        }
    }

    internal static void Photo() => Photos.Add(1);

    internal static void Judged(Verdict verdict) =>
        Verdicts.Add(1, new KeyValuePair<string, object?>("verdict", verdict.ToString()));
}
