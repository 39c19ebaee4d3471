using System.Text.Json;

namespace CoatScan.MetricsTests;

/// <summary>Reads the reference tables; SOURCE.md beside them says where each comes from.</summary>
internal static class ReferenceData
{
    internal static JsonElement Read(string name)
    {
        var path = Path.Combine(AppContext.BaseDirectory, "TestData", "science", name + ".json");
        using var document = JsonDocument.Parse(File.ReadAllText(path));
        return document.RootElement.Clone();
    }

    internal static double[] Doubles(this JsonElement element) =>
        [.. element.EnumerateArray().Select(item => item.GetDouble())];
}
