using System.Text.Json;
using System.Text.Json.Serialization;
using Json.Schema;
using YamlDotNet.Core;

namespace CoatScan.Diagnosis;

/// <summary>Reads the files of a knowledge folder, each checked against its schema before it is used.</summary>
internal sealed class KnowledgeFolder(string folder)
{
    private static readonly JsonSerializerOptions Json = new()
    {
        PropertyNamingPolicy = JsonNamingPolicy.SnakeCaseLower,
        UnmappedMemberHandling = JsonUnmappedMemberHandling.Disallow,
        RespectNullableAnnotations = true,
        RespectRequiredConstructorParameters = true,
        Converters = { new JsonStringEnumConverter<LikelihoodClass>(JsonNamingPolicy.SnakeCaseLower) },
    };

    private readonly Dictionary<string, JsonSchema> _schemas = new(StringComparer.Ordinal);

    /// <summary>Reads one file.</summary>
    /// <param name="name">File name below the folder, without extension.</param>
    /// <param name="schema">Name of its schema, without extension.</param>
    /// <exception cref="InvalidDataException">The file is missing, broken or against its schema.</exception>
    public T Read<T>(string name, string schema)
    {
        string file = name + ".yaml";
        string path = Path.Combine(folder, file);
        try
        {
            using var text = new StringReader(File.ReadAllText(path));
            using JsonDocument document = YamlJson.Parse(text);
            Check(document.RootElement, file, schema);
            return document.RootElement.Deserialize<T>(Json)
                ?? throw new InvalidDataException($"Knowledge file {file} is empty.");
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            throw new InvalidDataException($"Knowledge file {file} cannot be read: {e.Message}", e);
        }
        catch (YamlException e)
        {
            throw new InvalidDataException(
                $"Knowledge file {file} is not valid YAML at line {e.Start.Line}: {OneLine(e.Message)}", e);
        }
        catch (InvalidOperationException e)
        {
            // YamlDotNet's scanner throws this, without a place, at an unclosed bracket.
            throw new InvalidDataException($"Knowledge file {file} is not valid YAML: {e.Message}", e);
        }
        catch (JsonException e)
        {
            throw new InvalidDataException($"Knowledge file {file} does not fit its type: {OneLine(e.Message)}", e);
        }
    }

    /// <summary>Names of the files of one subfolder, without extension, in ordinal order.</summary>
    public IReadOnlyList<string> Names(string subfolder)
    {
        string path = Path.Combine(folder, subfolder);
        if (!Directory.Exists(path))
        {
            throw new InvalidDataException($"Knowledge folder {subfolder} is missing below {folder}.");
        }

        return [.. Directory.EnumerateFiles(path, "*.yaml")
            .Select(p => Path.GetFileNameWithoutExtension(p)!)
            .Order(StringComparer.Ordinal)];
    }

    private static string OneLine(string message) => message.ReplaceLineEndings(" ");

    private void Check(JsonElement root, string file, string schema)
    {
        if (!_schemas.TryGetValue(schema, out JsonSchema? compiled))
        {
            compiled = JsonSchema.FromText(File.ReadAllText(Path.Combine(folder, "schema", schema + ".schema.json")));
            _schemas.Add(schema, compiled);
        }

        if (compiled.Evaluate(root).IsValid)
        {
            return;
        }

        // The plain verdict is the fast path; the place of the fault is worked out only when there is one.
        EvaluationResults results = compiled.Evaluate(root, new() { OutputFormat = OutputFormat.List });
        EvaluationResults? worst = (results.Details ?? [])
            .Where(d => d.Errors is { Count: > 0 })
            .MaxBy(d => d.InstanceLocation.ToString().Length);
        string where = worst?.InstanceLocation.ToString() is { Length: > 0 } place ? place : "/";
        string why = worst?.Errors?.Values.First() ?? "it does not fit the schema";
        throw new InvalidDataException($"Knowledge file {file} breaks its schema at {where}: {why}");
    }
}
