using System.Text.Json;
using System.Text.Json.Serialization;
using CoatScan.Findings;

namespace CoatScan.Storage;

/// <summary>A finding as JSON and back, without loss.</summary>
/// <remarks>
/// By reflection, not by the source generator: generated code sets every init-only property, and one that the document
/// lacks to null. So a finding stored before a field was added would lose that field's default when it is read.
/// </remarks>
internal static class FindingDocument
{
    private static readonly JsonSerializerOptions Options = new()
    {
        PropertyNamingPolicy = JsonNamingPolicy.CamelCase,
        RespectNullableAnnotations = true,
        RespectRequiredConstructorParameters = true,
        Converters = { new MeasurementConverter(), new JsonStringEnumConverter() },
    };

    /// <summary>Writes a finding.</summary>
    /// <exception cref="ArgumentException">A number of the finding is NaN or infinite.</exception>
    public static string Write(Finding finding) => JsonSerializer.Serialize(finding, Options);

    /// <summary>Reads a finding.</summary>
    /// <exception cref="JsonException">The text is no finding.</exception>
    public static Finding Read(string document) =>
        JsonSerializer.Deserialize<Finding>(document, Options) ?? throw new JsonException("The document is null.");
}
