using System.Globalization;
using System.Text.Json;
using YamlDotNet.Core;
using YamlDotNet.Core.Events;

namespace CoatScan.Diagnosis;

/// <summary>Turns one YAML document into JSON, so that one schema language checks both text and types.</summary>
/// <remarks>
/// Plain scalars that read as a number, true, false or null become such; quoted ones stay text. Anchors, aliases and
/// repeated keys are refused: a reviewer must see every value where it is used.
/// </remarks>
internal static class YamlJson
{
    public static JsonDocument Parse(TextReader yaml)
    {
        var parser = new Parser(yaml);
        parser.Consume<StreamStart>();
        parser.Consume<DocumentStart>();
        using var buffer = new MemoryStream();
        using (var json = new Utf8JsonWriter(buffer))
        {
            Write(parser, json);
        }

        parser.Consume<DocumentEnd>();
        parser.Consume<StreamEnd>();
        return JsonDocument.Parse(buffer.GetBuffer().AsMemory(0, (int)buffer.Length).ToArray());
    }

    private static void Write(Parser parser, Utf8JsonWriter json)
    {
        ParsingEvent current = parser.Consume<ParsingEvent>();
        if (current is AnchorAlias || current is NodeEvent { Anchor.IsEmpty: false })
        {
            throw new YamlException(current.Start, current.End, "anchors and aliases are not allowed");
        }

        switch (current)
        {
            case Scalar scalar:
                WriteScalar(scalar, json);
                break;
            case SequenceStart:
                json.WriteStartArray();
                while (!parser.TryConsume<SequenceEnd>(out _))
                {
                    Write(parser, json);
                }

                json.WriteEndArray();
                break;
            case MappingStart:
                json.WriteStartObject();
                var keys = new HashSet<string>(StringComparer.Ordinal);
                while (!parser.TryConsume<MappingEnd>(out _))
                {
                    Scalar key = parser.Consume<Scalar>();
                    if (!keys.Add(key.Value))
                    {
                        throw new YamlException(key.Start, key.End, $"the key '{key.Value}' stands twice");
                    }

                    json.WritePropertyName(key.Value);
                    Write(parser, json);
                }

                json.WriteEndObject();
                break;
            default:
                throw new YamlException(current.Start, current.End, $"'{current.GetType().Name}' is not allowed here");
        }
    }

    private static void WriteScalar(Scalar scalar, Utf8JsonWriter json)
    {
        if (scalar.Style != ScalarStyle.Plain)
        {
            json.WriteStringValue(scalar.Value);
        }
        else if (scalar.Value is "true" or "false")
        {
            json.WriteBooleanValue(scalar.Value == "true");
        }
        else if (scalar.Value is "null" or "~" or "")
        {
            json.WriteNullValue();
        }
        else if (scalar.Value[0] is >= '0' and <= '9' or '-'
            && double.TryParse(scalar.Value, NumberStyles.Float, CultureInfo.InvariantCulture, out double number)
            && double.IsFinite(number))
        {
            // Whole numbers keep their spelling, so that a schema's "integer" holds.
            if (number == Math.Truncate(number) && Math.Abs(number) < 1e15)
            {
                json.WriteNumberValue((long)number);
            }
            else
            {
                json.WriteNumberValue(number);
            }
        }
        else
        {
            json.WriteStringValue(scalar.Value);
        }
    }
}
