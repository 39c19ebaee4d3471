using System.Runtime.CompilerServices;
using System.Text.Json;

namespace CoatScan.TrainingTests;

/// <summary>Reference values; tests/TestData/science says where they come from.</summary>
internal static class ScienceCases
{
    public static JsonElement Stats { get; } = Read("stats.json");

    public static double[] Doubles(this JsonElement element) => [.. element.EnumerateArray().Select(item => item.GetDouble())];

    private static JsonElement Read(string name, [CallerFilePath] string here = "")
    {
        var file = Path.Combine(Path.GetDirectoryName(here)!, "..", "TestData", "science", name);
        using var document = JsonDocument.Parse(File.ReadAllText(file));
        return document.RootElement.Clone();
    }
}
