using System.Text.Json;
using System.Text.Json.Serialization;

namespace CoatScan.Storage.Ledger;

/// <summary>The parts of an item that are kept as JSON; equal parts give equal text.</summary>
internal static class LedgerDocument
{
    private static readonly JsonSerializerOptions Options = new()
    {
        PropertyNamingPolicy = JsonNamingPolicy.CamelCase,
        RespectNullableAnnotations = true,
        DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull,
        Converters = { new JsonStringEnumConverter() },
    };

    public static string Write<T>(T part)
        where T : class => JsonSerializer.Serialize(part, Options);

    /// <exception cref="JsonException">The text is no such part.</exception>
    public static T Read<T>(string document)
        where T : class =>
        JsonSerializer.Deserialize<T>(document, Options) ?? throw new JsonException("The document is null.");
}
