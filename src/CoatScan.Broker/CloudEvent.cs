using System.Globalization;
using System.Text.Json;
using System.Text.Json.Serialization;
using CoatScan.Batches;

namespace CoatScan.Broker;

/// <summary>An announcement in the JSON format of CloudEvents 1.0, structured mode.</summary>
internal static class CloudEvent
{
    /// <summary>Media type of one event in structured mode.</summary>
    public const string MediaType = "application/cloudevents+json; charset=utf-8";

    private static readonly JsonSerializerOptions Options = new()
    {
        PropertyNamingPolicy = JsonNamingPolicy.CamelCase,
        DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull,
    };

    public static string RoutingKeyOf(Announcement announcement) => $"{announcement.Tenant.Id}.{WhatOf(announcement)}";

    /// <remarks>
    /// Source and id together are the event: the batch of the tenant, and the number of the event in it. There is no photo, no
    /// fact and no text of a finding in it; who may see those asks the service for them.
    /// </remarks>
    public static byte[] Write(Announcement announcement)
    {
        var (tenant, batch, item) = (announcement.Tenant.Id, announcement.Event.Batch.Id, announcement.Event.Item!);
        return JsonSerializer.SerializeToUtf8Bytes(
            new Envelope(
                SpecVersion: "1.0",
                Id: announcement.Event.Sequence.ToString(CultureInfo.InvariantCulture),
                Source: $"/coatscan/tenants/{tenant}/batches/{batch}",
                Type: $"coatscan.item.{WhatOf(announcement)}.v1",
                Subject: $"batches/{batch}/items/{item.Given.Key}",
                DataContentType: "application/json",
                Tenant: tenant,
                new Data(
                    $"batches/{batch}",
                    item.Given.Key,
                    item.Given.VehicleRef,
                    item.Given.Facts.Panel,
                    item.Finding,
                    item.Error is { } error ? new Fault(
                        JsonNamingPolicy.SnakeCaseUpper.ConvertName(error.Reason.ToString()), error.Message) : null)),
            Options);
    }

    private static string WhatOf(Announcement announcement) =>
        announcement.Event.Item!.State == ItemState.Graded ? "graded" : "failed";

    // The names of attributes are lower-case letters and digits only (CloudEvents 1.0, "Attribute Naming Convention").
    private sealed record Envelope(
        [property: JsonPropertyName("specversion")] string SpecVersion,
        string Id,
        string Source,
        string Type,
        string Subject,
        [property: JsonPropertyName("datacontenttype")] string DataContentType,
        string Tenant,
        Data Data);

    private sealed record Data(
        string Batch, string Item, string VehicleRef, string Panel, string? Finding, Fault? Error);

    private sealed record Fault(string Reason, string Message);
}
