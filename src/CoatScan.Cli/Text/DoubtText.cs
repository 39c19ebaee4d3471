using CoatScan.V1;

namespace CoatScan.Cli.Text;

/// <summary>What is still open, what does not fit together, and what is dangerous.</summary>
internal static class DoubtText
{
    private const int MostLookAlikes = 3;

    /// <summary>Writes open look-alikes, contradictions and safety cautions, which are never cut.</summary>
    public static void Write(TextPage page, Finding finding)
    {
        ArgumentNullException.ThrowIfNull(finding);
        var lead = finding.Conditions is [var first, ..] ? first.Condition : "";
        page.Entries("OPEN", finding.LookAlikes.Take(MostLookAlikes).Select(one =>
        {
            var tell = one.Tell.Length > 0 ? $" To tell: {one.Tell.TrimEnd('.')}." : "";
            var other = TradeWords.Condition(finding, one.Other);
            return one.Condition == lead
                ? $"{other} looks alike.{tell}"
                : $"{TradeWords.Condition(finding, one.Condition)} and {other} look alike.{tell}";
        }));
        page.Entries("CLASH", finding.Contradictions.Select(one =>
            $"{Phrase.Sentence(one.Text)} {Phrase.Sentence(one.Consequence)}".TrimEnd()));
        page.Entry("SAFETY", string.Join(" ", finding.Cautions.Select(Phrase.Sentence)));
    }
}
