using CoatScan.Findings;

namespace CoatScan.DiagnosisTests;

/// <summary>The knowledge base that ships, loaded once for all tests.</summary>
internal static class Known
{
    public static string Folder { get; } = Path.Combine(AppContext.BaseDirectory, "models", "knowledge");

    public static KnowledgeBase Base { get; } = KnowledgeBase.Load(Folder);

    public static Diagnostician Diagnostician { get; } = new(Base);

    public static PanelDiagnosis Diagnose(params string[] evidence) =>
        Diagnostician.Diagnose(new PanelFacts { Evidence = evidence }, null);

    /// <summary>A photo on which one class has the given share and the other panel classes share the rest.</summary>
    public static PhotoEvidence Photo(string visualClass, double share = 0.9, double lambda = 0.7)
    {
        string[] all = [.. Base.VisualClasses.Keys];
        double rest = (1 - share) / (all.Length - 1);
        return new()
        {
            Shares = [.. all.Select(c => new VisualClassShare { VisualClass = c, Probability = c == visualClass ? share : rest })],
            PriorShares = all.ToDictionary(c => c, _ => 1.0 / all.Length),
            Lambda = lambda,
        };
    }
}
