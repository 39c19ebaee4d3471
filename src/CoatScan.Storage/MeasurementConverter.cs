using System.Text.Json;
using System.Text.Json.Serialization;
using CoatScan.Findings;

namespace CoatScan.Storage;

/// <summary>Reads a measurement through its own factories, so that a stored one is either present or absent too.</summary>
internal sealed class MeasurementConverter : JsonConverter<Measurement>
{
    public override Measurement Read(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options)
    {
        string? metric = null;
        string? unit = null;
        double? value = null;
        double? uncertainty = null;
        string? absentReason = null;
        var photoIndex = 0;

        if (reader.TokenType != JsonTokenType.StartObject)
        {
            throw new JsonException("A measurement is an object.");
        }

        while (reader.Read() && reader.TokenType == JsonTokenType.PropertyName)
        {
            var property = reader.GetString();
            reader.Read();
            switch (property)
            {
                case "metric": metric = reader.GetString(); break;
                case "unit": unit = reader.GetString(); break;
                case "value": value = reader.GetDouble(); break;
                case "uncertainty": uncertainty = reader.GetDouble(); break;
                case "absentReason": absentReason = reader.GetString(); break;
                case "photoIndex": photoIndex = reader.GetInt32(); break;
                default: reader.Skip(); break;
            }
        }

        if (metric is null || unit is null || value is null == absentReason is null)
        {
            throw new JsonException("A measurement has a metric, a unit, and either a value or a reason for its absence.");
        }

        if (value is { } number && !double.IsFinite(number))
        {
            throw new JsonException("A measured value is finite.");
        }

        var measurement = value is null
            ? Measurement.Absent(metric, unit, absentReason!)
            : Measurement.Of(metric, value.Value, unit, uncertainty);
        return measurement with { PhotoIndex = photoIndex };
    }

    public override void Write(Utf8JsonWriter writer, Measurement value, JsonSerializerOptions options)
    {
        writer.WriteStartObject();
        writer.WriteString("metric", value.Metric);
        writer.WriteString("unit", value.Unit);
        if (value.Value is { } number)
        {
            writer.WriteNumber("value", number);
        }

        if (value.Uncertainty is { } uncertainty)
        {
            writer.WriteNumber("uncertainty", uncertainty);
        }

        if (value.AbsentReason is { } reason)
        {
            writer.WriteString("absentReason", reason);
        }

        writer.WriteNumber("photoIndex", value.PhotoIndex);
        writer.WriteEndObject();
    }
}
