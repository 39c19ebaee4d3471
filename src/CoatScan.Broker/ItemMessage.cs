using System.Text.Json;
using System.Text.Json.Serialization;
using CoatScan.Batches;
using CoatScan.Findings;

namespace CoatScan.Broker;

/// <summary>What travels for an item: ids only.</summary>
internal sealed record ItemMessage(
    [property: JsonRequired] string Tenant,
    [property: JsonRequired] string Batch,
    [property: JsonRequired] string Key,
    [property: JsonRequired] bool Suspect,
    [property: JsonRequired] long Fence)
{
    private static readonly JsonSerializerOptions Options = new()
    {
        PropertyNamingPolicy = JsonNamingPolicy.CamelCase,
        RespectNullableAnnotations = true,
    };

    public static byte[] Write(ReadyItem item) => JsonSerializer.SerializeToUtf8Bytes(
        new ItemMessage(item.Item.Tenant.Id, item.Item.Batch, item.Item.Key, item.Suspect, item.Fence), Options);

    /// <summary>The item of a message; null if it is none of ours.</summary>
    public static ReadyItem? Read(ReadOnlySpan<byte> body)
    {
        try
        {
            return JsonSerializer.Deserialize<ItemMessage>(body, Options) is { } message && Findings.Tenant.IsId(message.Tenant)
                ? new ReadyItem(
                    new ItemRef(new Tenant(message.Tenant), message.Batch, message.Key), message.Suspect, message.Fence)
                : null;
        }
        catch (JsonException)
        {
            return null;
        }
    }
}
