using System.Text.Json.Nodes;
using Google.Protobuf;
using Wire = CoatScan.V1;

namespace CoatScan.Service.Endpoints;

/// <summary>In what two findings differ, as paths in their JSON.</summary>
internal static class FindingDifference
{
    private const int Most = 100;

    /// <summary>The first places in which they differ; none if they are equal.</summary>
    public static IEnumerable<Wire.VerifyFindingResponse.Types.Difference> Of(Wire.Finding stored, Wire.Finding now) =>
        stored.Equals(now) ? [] : Walk("", Json(stored), Json(now)).Take(Most);

    private static JsonNode? Json(IMessage message) => JsonNode.Parse(JsonFormatter.Default.Format(message));

    private static IEnumerable<Wire.VerifyFindingResponse.Types.Difference> Walk(string path, JsonNode? stored, JsonNode? now)
    {
        switch (stored, now)
        {
            case (JsonObject first, JsonObject second):
                var names = first.Select(one => one.Key).Union(second.Select(one => one.Key));
                return names.SelectMany(name => Walk(path.Length == 0 ? name : $"{path}.{name}", first[name], second[name]));
            case (JsonArray first, JsonArray second):
                return Enumerable.Range(0, Math.Max(first.Count, second.Count)).SelectMany(index =>
                    Walk($"{path}[{index}]", first.ElementAtOrDefault(index), second.ElementAtOrDefault(index)));
            default:
                return JsonNode.DeepEquals(stored, now) ? [] : [Difference(path, stored, now)];
        }
    }

    private static Wire.VerifyFindingResponse.Types.Difference Difference(string path, JsonNode? stored, JsonNode? now) => new()
    {
        Field = path,
        Stored = stored?.ToJsonString() ?? "",
        Now = now?.ToJsonString() ?? "",
    };
}
