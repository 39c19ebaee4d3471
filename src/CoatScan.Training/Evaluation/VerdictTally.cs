using System.Text;
using CoatScan.Findings;
using CoatScan.Training.Reporting;

namespace CoatScan.Training.Evaluation;

/// <summary>What the whole product says about pictures, counted by kind of picture.</summary>
internal sealed class VerdictTally
{
    private readonly SortedDictionary<string, Dictionary<Verdict, int>> _counts = new(StringComparer.Ordinal);
    private int _unreadable;

    /// <param name="kind">Kind of the picture.</param>
    /// <param name="given">Null for a picture that the product refuses to read at all.</param>
    public void Add(string kind, Verdict? given)
    {
        if (given is not { } verdict)
        {
            _unreadable++;
            return;
        }

        if (!_counts.TryGetValue(kind, out var counts))
        {
            _counts[kind] = counts = [];
        }

        counts[verdict] = counts.GetValueOrDefault(verdict) + 1;
    }

    /// <summary>Pictures that got a verdict.</summary>
    public int Count => _counts.Values.Sum(counts => counts.Values.Sum());

    /// <summary>Share of those with one of the verdicts, [0, 1].</summary>
    public double Share(params ReadOnlySpan<Verdict> verdicts)
    {
        var sum = 0;
        foreach (var verdict in verdicts)
        {
            sum += _counts.Values.Sum(counts => counts.GetValueOrDefault(verdict));
        }

        return sum / (double)Math.Max(1, Count);
    }

    /// <summary>What a report says of them.</summary>
    public NonPanelReport ToReport() => new(
        Count, Share(Verdict.NotAssessable), Share(Verdict.NotAssessable, Verdict.Inconclusive), ToString());

    /// <summary>As Markdown.</summary>
    public override string ToString()
    {
        var verdicts = Enum.GetValues<Verdict>();
        var text = new StringBuilder();
        text.AppendLine(ReportText.Invariant(
            $"{Count} pictures, {_unreadable} more refused before any look: NOT_ASSESSABLE {Share(Verdict.NotAssessable):0.000}, NOT_ASSESSABLE or INCONCLUSIVE {Share(Verdict.NotAssessable, Verdict.Inconclusive):0.000}."));
        text.AppendLine();
        text.AppendLine($"| pictures | {string.Join(" | ", verdicts)} |");
        text.AppendLine($"| --- |{string.Concat(verdicts.Select(_ => " --- |"))}");
        foreach (var (kind, counts) in _counts)
        {
            text.AppendLine($"| {kind} | {string.Join(" | ", verdicts.Select(verdict => ReportText.Invariant($"{counts.GetValueOrDefault(verdict)}")))} |");
        }

        return text.ToString();
    }
}
