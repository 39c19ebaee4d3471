using System.Text.Json;
using CoatScan.Cli.Connection;
using CoatScan.V1;

namespace CoatScan.Cli.Json;

/// <summary>Reads a case: evidence and readings without a photo.</summary>
internal static class RankCase
{
    private const string Bad = "FIELD_INVALID";

    private static readonly JsonDocumentOptions Strict = new() { AllowDuplicateProperties = false };

    /// <summary>Reads the case, or says what is wrong with it.</summary>
    /// <param name="json">One JSON object.</param>
    /// <returns>Exactly one of the two.</returns>
    public static (PanelFacts? Facts, ServiceError? Error) Read(string json)
    {
        var facts = new PanelFacts();
        try
        {
            using var document = JsonDocument.Parse(json, Strict);
            return ReadObject(document.RootElement, facts) is { } wrong
                ? (null, ServiceError.Invalid(Bad, wrong))
                : (facts, null);
        }
        catch (JsonException failure)
        {
            return (null, ServiceError.Invalid(Bad, $"The case is no JSON: {failure.Message}"));
        }
        catch (InvalidOperationException)
        {
            // Half of a surrogate pair, written as an escape, is JSON but no text.
            return (null, ServiceError.Invalid(Bad, "The case holds an escape that is no character."));
        }
    }

    private static string? ReadObject(JsonElement root, PanelFacts facts)
    {
        if (root.ValueKind != JsonValueKind.Object)
        {
            return "A case is one JSON object, for example {\"evidence\":[\"form.rings\"]}.";
        }

        foreach (var property in root.EnumerateObject())
        {
            var value = property.Value;
            var wrong = property.Name switch
            {
                "evidence" => ReadEvidence(value, facts),
                "measurements" => ReadMeasurements(value, facts),
                "panel" => ReadText(value, "panel", text => facts.Panel = text),
                "externalRef" => ReadText(value, "externalRef", text => facts.ExternalRef = text),
                _ => $"A case has no '{property.Name}'; it has evidence, measurements, panel and externalRef.",
            };
            if (wrong is not null)
            {
                return wrong;
            }
        }

        return null;
    }

    private static string? ReadEvidence(JsonElement value, PanelFacts facts)
    {
        if (value.ValueKind != JsonValueKind.Array)
        {
            return "'evidence' is a list of ids, for example [\"form.rings\"].";
        }

        foreach (var id in value.EnumerateArray())
        {
            if (id.ValueKind != JsonValueKind.String)
            {
                return $"'evidence' is a list of ids in quotes, not {Word(id)}.";
            }

            facts.Evidence.Add(id.GetString());
        }

        return null;
    }

    private static string? ReadMeasurements(JsonElement value, PanelFacts facts)
    {
        if (value.ValueKind is JsonValueKind.Null)
        {
            return null;
        }

        if (value.ValueKind != JsonValueKind.Object)
        {
            return "'measurements' is an object with filmUm, gloss60 and deltaE00.";
        }

        var readings = new Readings();
        facts.Readings = readings;
        foreach (var property in value.EnumerateObject())
        {
            var wrong = property.Name switch
            {
                "filmUm" => ReadFilm(property.Value, readings),
                "gloss60" => ReadNumber(property.Value, "gloss60", number => readings.Gloss60 = number),
                "deltaE00" => ReadNumber(property.Value, "deltaE00", number => readings.DeltaE00 = number),
                _ => $"'measurements' has no '{property.Name}'; it has filmUm, gloss60 and deltaE00.",
            };
            if (wrong is not null)
            {
                return wrong;
            }
        }

        return null;
    }

    private static string? ReadFilm(JsonElement value, Readings readings)
    {
        if (value.ValueKind is JsonValueKind.Null)
        {
            return null;
        }

        if (value.ValueKind != JsonValueKind.Array)
        {
            return "'filmUm' is a list of numbers in micrometers, for example [118, 125].";
        }

        foreach (var item in value.EnumerateArray())
        {
            if (item.ValueKind == JsonValueKind.Null)
            {
                return "'filmUm' is a list of numbers; leave a spot that was not read out.";
            }

            if (ReadNumber(item, "filmUm", readings.FilmUm.Add) is { } wrong)
            {
                return wrong;
            }
        }

        return null;
    }

    private static string? ReadNumber(JsonElement value, string name, Action<double> take)
    {
        if (value.ValueKind == JsonValueKind.Null)
        {
            return null;
        }

        if (value.ValueKind != JsonValueKind.Number || !value.TryGetDouble(out var number) || !double.IsFinite(number))
        {
            return $"'{name}' is a number, not {Word(value)}.";
        }

        take(number);
        return null;
    }

    private static string? ReadText(JsonElement value, string name, Action<string> take)
    {
        if (value.ValueKind == JsonValueKind.Null)
        {
            return null;
        }

        if (value.ValueKind != JsonValueKind.String)
        {
            return $"'{name}' is text in quotes, not {Word(value)}.";
        }

        take(value.GetString()!);
        return null;
    }

    private static string Word(JsonElement value)
    {
        const int Longest = 40;
        var text = value.GetRawText();
        return text.Length <= Longest ? text : string.Concat(text.AsSpan(0, Longest), "...");
    }
}
