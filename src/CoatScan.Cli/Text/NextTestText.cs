using System.Globalization;
using CoatScan.V1;

namespace CoatScan.Cli.Text;

/// <summary>What to test next.</summary>
internal static class NextTestText
{
    private const int MostTests = 2;

    /// <summary>Writes the most useful tests: name, how, time, and what each decides.</summary>
    public static void Write(TextPage page, Finding finding)
    {
        ArgumentNullException.ThrowIfNull(finding);
        page.Entries("TEST", finding.NextTests.Take(MostTests).Select(Say));
        var more = finding.NextTests.Skip(MostTests).Select(Name).Take(3).ToList();
        page.Entry("", more.Count == 0 ? "" : $"After that: {Phrase.List(more)}.");
    }

    private static string Say(NextTest test)
    {
        var minutes = string.Create(
            CultureInfo.InvariantCulture, $"{test.Minutes} {(test.Minutes == 1 ? "minute" : "minutes")}");
        var how = test.How.Length > 0 ? $" {Phrase.Sentence(test.How)}" : "";
        var reason = test.Reason.Length > 0 ? $" {Phrase.Sentence(test.Reason)}" : "";
        var caution = test.Caution.Length > 0 ? $" Mind: {test.Caution.TrimEnd('.')}." : "";
        var consent = test.Consent.Length > 0 ? $" {Phrase.Sentence(test.Consent)}" : "";
        return $"{Name(test)} ({minutes}, {TradeWords.Trace(test.Invasiveness)}).{how}{reason}{caution}{consent}";
    }

    private static string Name(NextTest test) =>
        test.DisplayName.Length > 0 ? test.DisplayName : Phrase.Capital(Phrase.OfId(test.Test));
}
