namespace CoatScan.Findings;

/// <summary>What produced a finding; together with the photos and facts it makes the finding repeatable.</summary>
/// <param name="ServiceVersion">Version of the service.</param>
/// <param name="ModelVersion">Version of the classifier.</param>
/// <param name="ModelSha256">Digest of the classifier, lower-case hex.</param>
/// <param name="KnowledgeVersion">Version of the knowledge base.</param>
/// <param name="MetricSetVersion">Version of the metric set.</param>
public sealed record Provenance(
    string ServiceVersion,
    string ModelVersion,
    string ModelSha256,
    string KnowledgeVersion,
    string MetricSetVersion)
{
    /// <summary>Digest of the knowledge base, lower-case hex; empty in findings of versions that did not keep it.</summary>
    public string KnowledgeSha256 { get; init; } = "";
}
