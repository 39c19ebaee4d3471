using System.Text.Json;
using CoatScan.V1;
using Google.Protobuf;

namespace CoatScan.Cli.Input;

/// <summary>Reads the hours of a forecast.</summary>
internal static class ForecastFile
{
    private const long LongestFile = 1024 * 1024;

    /// <summary>Reads a JSON list of hours.</summary>
    /// <exception cref="CommandException">The file cannot be read or is no such list.</exception>
    public static IReadOnlyList<ForecastHour> Read(string path)
    {
        try
        {
            if (new FileInfo(path) is { Exists: true, Length: > LongestFile })
            {
                throw CommandException.Failed($"'{path}' is larger than 1 MiB; a forecast is a short list.");
            }

            using var document = JsonDocument.Parse(File.ReadAllText(path));
            if (document.RootElement.ValueKind != JsonValueKind.Array)
            {
                throw CommandException.Failed($"'{path}' must hold a JSON list of hours.");
            }

            return [.. document.RootElement.EnumerateArray().Select(hour => JsonParser.Default.Parse<ForecastHour>(hour.GetRawText()))];
        }
        catch (Exception failure) when (failure is JsonException or InvalidProtocolBufferException)
        {
            throw CommandException.Failed($"'{path}' is no list of hours: {failure.Message}");
        }
        catch (Exception failure) when (failure is IOException or UnauthorizedAccessException)
        {
            throw CommandException.Failed($"'{path}' cannot be read: {failure.Message}");
        }
    }
}
