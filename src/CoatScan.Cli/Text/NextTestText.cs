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
        var words = page.Words;
        page.Entries("TEST", finding.NextTests.Take(MostTests).Select(one => Say(one, words)));
        var more = finding.NextTests.Skip(MostTests).Select(one => words.Say(Name(one))).Take(3).ToList();
        page.Entry("", more.Count == 0 ? "" : words.Fill("After that: {0}.", words.List(more)));
    }

    private static string Say(NextTest test, ReaderWords words)
    {
        var minutes = words.Fill(test.Minutes == 1 ? "{0} minute" : "{0} minutes", test.Minutes);
        var how = test.How.Length > 0 ? $" {words.Sentence(test.How)}" : "";
        var reason = test.Reason.Length > 0 ? $" {words.Sentence(test.Reason)}" : "";
        var caution = test.Caution.Length > 0 ? " " + words.Fill("Mind: {0}.", words.Bare(test.Caution)) : "";
        var consent = test.Consent.Length > 0 ? $" {words.Sentence(test.Consent)}" : "";
        return $"{words.Say(Name(test))} ({minutes}, {words.Fill(TradeWords.Trace(test.Invasiveness))}).{how}{reason}{caution}{consent}";
    }

    private static string Name(NextTest test) =>
        test.DisplayName.Length > 0 ? test.DisplayName : Phrase.Capital(Phrase.OfId(test.Test));
}
