using CoatScan.Findings;

namespace CoatScan.Diagnosis;

/// <summary>What the remedy is planned from.</summary>
/// <param name="Verdict">How far the condition is decided.</param>
/// <param name="Ranked">Conditions, most probable first.</param>
/// <param name="Beside">Conditions present beside the leading one.</param>
/// <param name="OpenOfLeading">Look-alikes of the leading condition that nothing tells apart yet.</param>
/// <param name="Facts">What the caller knows.</param>
/// <param name="Evidence">What was brought.</param>
internal sealed record RemedyCase(
    Verdict Verdict,
    IReadOnlyList<Scored> Ranked,
    IReadOnlyList<string> Beside,
    IReadOnlyList<OpenPair> OpenOfLeading,
    PanelFacts Facts,
    EvidenceSet Evidence);
