namespace CoatScan.Findings;

/// <summary>One piece of evidence that was ranked.</summary>
/// <param name="Id">Id in the evidence vocabulary, or <c>photo.{visual class}</c>.</param>
/// <param name="Origin">What kind of source brought it.</param>
/// <param name="Text">What it says, in words.</param>
public sealed record EvidenceItem(string Id, EvidenceOrigin Origin, string Text)
{
    /// <summary>Who said it, each once, for example <c>caller</c>, <c>reading</c>, <c>photo 2</c> or a name.</summary>
    public IReadOnlyList<string> SaidBy { get; init; } = [];
}
