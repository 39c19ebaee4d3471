using System.Text.Json;
using System.Text.Json.Serialization;
using Microsoft.ML;

namespace CoatScan.Classification;

/// <summary>A trained model as it lies in a folder, checked before anything of it is used.</summary>
internal sealed record ModelFolder
{
    private static readonly JsonSerializerOptions Json = new(JsonSerializerDefaults.Web)
    {
        WriteIndented = true,
        Converters = { new JsonStringEnumConverter(JsonNamingPolicy.CamelCase) },
    };

    public required ModelCard Card { get; init; }

    public required Calibration Calibration { get; init; }

    public required ITransformer PhotoModel { get; init; }

    /// <summary>Reads and checks a model.</summary>
    /// <exception cref="InvalidDataException">A part is missing, unreadable, or does not fit; one sentence says which.</exception>
    public static ModelFolder Load(MLContext context, string folder)
    {
        foreach (var name in new[] { ModelFiles.Card, ModelFiles.Calibration, ModelFiles.Photo, ModelFiles.Network })
        {
            if (!File.Exists(Path.Combine(folder, name)))
            {
                throw new InvalidDataException($"The classifier folder '{folder}' lacks '{name}'; train it or restore it.");
            }
        }

        try
        {
            var card = Read<ModelCard>(folder, ModelFiles.Card);
            Check(card, folder);
            return new ModelFolder
            {
                Card = card,
                Calibration = Read<Calibration>(folder, ModelFiles.Calibration),
                PhotoModel = context.Model.Load(Path.Combine(folder, ModelFiles.Photo), out _),
            };
        }
        catch (JsonException error)
        {
            throw new InvalidDataException($"The classifier folder '{folder}' holds malformed JSON: {error.Message}", error);
        }
    }

    /// <summary>Writes the parts beside the network that lies there, then the card with their digests.</summary>
    /// <returns>The card as written.</returns>
    public static ModelCard Save(MLContext context, string folder, ModelFolder model)
    {
        Directory.CreateDirectory(folder);
        context.Model.Save(model.PhotoModel, null, Path.Combine(folder, ModelFiles.Photo));
        Write(folder, ModelFiles.Calibration, model.Calibration);
        var card = model.Card with
        {
            Sha256 = ModelFiles.Digest(folder),
            NetworkSha256 = ModelFiles.FileDigest(Path.Combine(folder, ModelFiles.Network)),
        };
        Write(folder, ModelFiles.Card, card);
        return card;
    }

    private static void Check(ModelCard card, string folder)
    {
        if (!card.Classes.SequenceEqual(VisualClasses.All))
        {
            throw new InvalidDataException(
                $"The classifier of '{folder}' knows other visual classes than this program; train it again.");
        }

        if (card.Checks.Length != card.Classes.Length || card.PriorShares.Length != card.Classes.Length)
        {
            throw new InvalidDataException(
                $"The card of '{folder}' does not say one prior share and one check for each of its {card.Classes.Length} classes; train it again.");
        }

        var digest = DigestOrReason(folder);
        if (!string.Equals(digest, card.Sha256, StringComparison.Ordinal))
        {
            throw new InvalidDataException(
                $"The classifier of '{folder}' has digest {digest}, its card says {card.Sha256}; restore it.");
        }

        var network = ModelFiles.FileDigest(Path.Combine(folder, ModelFiles.Network));
        if (!string.Equals(network, card.NetworkSha256, StringComparison.Ordinal))
        {
            throw new InvalidDataException(
                $"The panel network of '{folder}' has digest {network}, its classifier was trained with "
                + $"{card.NetworkSha256}; restore it or train again.");
        }
    }

    private static string DigestOrReason(string folder)
    {
        try
        {
            return ModelFiles.Digest(folder);
        }
        catch (InvalidDataException)
        {
            // A part that is no zip at all differs from what the card promises, like any other change.
            return "unreadable";
        }
    }

    private static T Read<T>(string folder, string name) =>
        JsonSerializer.Deserialize<T>(File.ReadAllBytes(Path.Combine(folder, name)), Json)
        ?? throw new JsonException($"'{name}' is empty.");

    private static void Write<T>(string folder, string name, T value) =>
        File.WriteAllText(Path.Combine(folder, name), JsonSerializer.Serialize(value, Json) + "\n");
}
