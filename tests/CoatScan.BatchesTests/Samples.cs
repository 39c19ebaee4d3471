using CoatScan.Batches;
using CoatScan.Findings;

namespace CoatScan.BatchesTests;

/// <summary>Items and findings without a photo behind them.</summary>
internal static class Samples
{
    public static NewItem Item(string key, string vehicle = "lot-1", string panel = "") =>
        new(key, vehicle, [$"photos/{new string('a', 64)}"], new PanelFacts { Panel = panel });

    public static IReadOnlyList<NewItem> Items(int count, int from = 0) =>
        [.. Enumerable.Range(from, count).Select(i => Item($"item-{i}"))];

    /// <summary>A graded item; its finding is named after the item, the attempt and whoever graded it.</summary>
    public static GradedItem Graded(string findingId, long severity = 1, params string[] retakes) => new(
        new Finding
        {
            Name = $"findings/{findingId}",
            CreateTime = LedgerUnderTest.Noon,
            Verdict = Verdict.Conclusive,
            Provenance = new Provenance("1", "1", new string('0', 64), "1", "1"),
        },
        new PanelSummary { Verdict = Verdict.Conclusive, Severity = severity, Retakes = retakes });
}
