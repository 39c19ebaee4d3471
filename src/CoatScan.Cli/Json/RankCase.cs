using System.Text.Json;
using CoatScan.Cli.Connection;
using CoatScan.V1;
using Google.Protobuf.Collections;

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
                "statements" => ReadStatements(value, facts),
                "appliedOn" => ReadText(value, "appliedOn", text => facts.AppliedOn = text),
                "panel" => ReadText(value, "panel", text => facts.Panel = text),
                "externalRef" => ReadText(value, "externalRef", text => facts.ExternalRef = text),
                _ => $"A case has no '{property.Name}'; it has evidence, statements, measurements, appliedOn, panel, externalRef.",
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
            return "'measurements' is an object with filmUm, gloss60, deltaE00, faultDepthUm, filmPanels.";
        }

        var readings = new Readings();
        facts.Readings = readings;
        foreach (var property in value.EnumerateObject())
        {
            var wrong = property.Name switch
            {
                "filmUm" => ReadFilm(property.Value, readings.FilmUm),
                "gloss60" => ReadNumber(property.Value, "gloss60", number => readings.Gloss60 = number),
                "deltaE00" => ReadNumber(property.Value, "deltaE00", number => readings.DeltaE00 = number),
                "faultDepthUm" => ReadNumber(property.Value, "faultDepthUm", number => readings.FaultDepthUm = number),
                "filmPanels" => ReadFilmPanels(property.Value, readings),
                _ => $"'measurements' has no '{property.Name}'; it has filmUm, gloss60, deltaE00, faultDepthUm, filmPanels.",
            };
            if (wrong is not null)
            {
                return wrong;
            }
        }

        return null;
    }

    private static string? ReadFilm(JsonElement value, RepeatedField<double> filmUm)
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

            if (ReadNumber(item, "filmUm", filmUm.Add) is { } wrong)
            {
                return wrong;
            }
        }

        return null;
    }

    private static string? ReadFilmPanels(JsonElement value, Readings readings) => ReadObjects(
        value,
        "'filmPanels' is a list of objects, for example [{\"panel\":\"roof\",\"filmUm\":[110]}].",
        () =>
        {
            var panel = new PanelFilm();
            readings.FilmPanels.Add(panel);
            return (property, shape) => property.Name switch
            {
                "panel" => ReadText(property.Value, "panel", text => panel.Panel = text),
                "filmUm" => ReadFilm(property.Value, panel.FilmUm),
                _ => shape,
            };
        });

    private static string? ReadStatements(JsonElement value, PanelFacts facts) => ReadObjects(
        value,
        "'statements' is a list of objects, for example [{\"evidence\":\"history.sudden\",\"saidBy\":\"owner\"}].",
        () =>
        {
            var statement = new Statement();
            facts.Statements.Add(statement);
            return (property, shape) => property.Name switch
            {
                "evidence" => ReadText(property.Value, "evidence", text => statement.Evidence = text),
                "saidBy" => ReadText(property.Value, "saidBy", text => statement.SaidBy = text),
                _ => shape,
            };
        });

    // A list of objects, each property of each read in turn; what is wrong first, or null.
    private static string? ReadObjects(
        JsonElement value, string shape, Func<Func<JsonProperty, string, string?>> begin)
    {
        if (value.ValueKind is JsonValueKind.Null)
        {
            return null;
        }

        if (value.ValueKind != JsonValueKind.Array)
        {
            return shape;
        }

        foreach (var item in value.EnumerateArray())
        {
            if (item.ValueKind != JsonValueKind.Object)
            {
                return shape;
            }

            var read = begin();
            foreach (var property in item.EnumerateObject())
            {
                if (read(property, shape) is { } wrong)
                {
                    return wrong;
                }
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
