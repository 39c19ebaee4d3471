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
        var words = page.Words;
        var lead = finding.Conditions is [var first, ..] ? first.Condition : "";
        page.Entries("OPEN", finding.LookAlikes.Take(MostLookAlikes).Select(one =>
        {
            var tell = one.Tell.Length > 0 ? " " + words.Fill("To tell: {0}.", words.Bare(one.Tell)) : "";
            var other = words.Say(TradeWords.Condition(finding, one.Other));
            return one.Condition == lead
                ? words.Fill("{0} looks alike.", other) + tell
                : words.Fill("{0} and {1} look alike.", words.Say(TradeWords.Condition(finding, one.Condition)), other) + tell;
        }));
        page.Entries("CLASH", finding.Contradictions.Select(one =>
            $"{words.Sentence(one.Text)} {words.Sentence(one.Consequence)}".TrimEnd()));
        page.Entry("SAFETY", string.Join(" ", finding.Cautions.Select(words.Sentence)));
    }
}
