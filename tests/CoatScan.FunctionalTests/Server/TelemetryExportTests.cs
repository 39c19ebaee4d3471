using System.Diagnostics;
using CoatScan.FunctionalTests.Infrastructure;
using CoatScan.V1;
using Grpc.Core;

namespace CoatScan.FunctionalTests.Server;

/// <summary>What reaches a collector; the field numbers are those of opentelemetry-proto 1.</summary>
public sealed class TelemetryExportTests
{
    private static readonly string[] Stages = ["classify", "diagnose", "measure", "normalize"];

    [Theory]
    [InlineData("grpc")]
    [InlineData("http/protobuf")]
    public async Task Configured_collector_receives_a_span_a_stage_the_counters_and_the_log(string protocol)
    {
        await using var collector = await OtlpReceiver.StartAsync();
        // All servers of this process share the activity sources, so the trace id tells this call's spans from others.
        var trace = ActivityTraceId.CreateRandom().ToHexString();

        await using (var server = await RunningServer.StartAsync(
            ("OTEL_EXPORTER_OTLP_ENDPOINT", protocol == "grpc" ? collector.GrpcAddress : collector.HttpAddress),
            ("OTEL_EXPORTER_OTLP_PROTOCOL", protocol),
            ("Logging:LogLevel:CoatScan", "Information")))
        {
            await server.Findings.AnalyzePhotoAsync(
                new AnalyzePhotoRequest { Photo = Panels.Input(Panels.FilmLoss) },
                new Metadata { { "traceparent", $"00-{trace}-{ActivitySpanId.CreateRandom().ToHexString()}-01" } });
            await Errors.OfAsync(() => server.Findings.AnalyzePhotoAsync(
                new AnalyzePhotoRequest { Photo = Panels.Input(RefusedPhotos.Gif) }));
        }

        // The server is gone: what it had not sent by its end is lost.
        var spans = collector.Of("traces").SelectMany(request => request.At(1, 2, 2)).Where(span => span.Hex(1) == trace).ToList();
        Assert.Equal(Stages, spans.Select(span => span.Text(5)).Where(Stages.Contains).Order(StringComparer.Ordinal));
        Assert.All(
            spans.Where(span => Stages.Contains(span.Text(5))),
            span => Assert.Contains(spans, parent => parent.Hex(2) == span.Hex(4)));
        Assert.Contains("coatscan", collector.Of("traces").SelectMany(request => request.At(1, 1, 1, 2)).Select(value => value.Text(1)));

        Assert.True(Sum(collector, "coatscan.photos", "") > 0);
        Assert.True(Sum(collector, "coatscan.verdicts", "") > 0);
        Assert.True(Sum(collector, "coatscan.refusals", "PHOTO_FORMAT_NOT_ALLOWED") > 0);
        Assert.Contains("coatscan.stage.duration", Metrics(collector).Select(metric => metric.Text(1)));

        Assert.Contains(
            collector.Of("logs").SelectMany(request => request.At(1, 2, 2)).SelectMany(record => record.At(6, 2)),
            attribute => attribute.Text(1) == "PHOTO_FORMAT_NOT_ALLOWED");
    }

    private static IEnumerable<OtlpMessage> Metrics(OtlpReceiver collector) =>
        collector.Of("metrics").SelectMany(request => request.At(1, 2, 2));

    // Sum of the data points of a counter, of those with an attribute of this value where one is asked for.
    private static long Sum(OtlpReceiver collector, string counter, string attribute) => Metrics(collector)
        .Where(metric => metric.Text(1) == counter)
        .SelectMany(metric => metric.At(7, 1))
        .Where(point => attribute.Length == 0 || point.At(7, 2).Any(value => value.Text(1) == attribute))
        .Sum(point => point.Fixed64(6));
}
