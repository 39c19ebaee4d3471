using CoatScan.V1;

namespace CoatScan.Cli.Text;

/// <summary>What the film readings say, and how much film may be spent.</summary>
internal static class FilmText
{
    /// <summary>Writes the map and the budget; nothing without readings.</summary>
    public static void Write(TextPage page, Finding finding)
    {
        ArgumentNullException.ThrowIfNull(page);
        ArgumentNullException.ThrowIfNull(finding);
        page.Entries("FILM", finding.FilmMap.Select(one =>
        {
            var panel = one.Panel.Length > 0 ? $"{Phrase.Capital(one.Panel)}: " : "";
            return Phrase.Sentence(panel + page.Words.Say(one.Text));
        }));
        page.Entry("BUDGET", page.Words.Sentence(finding.FilmBudget?.Text ?? ""));
    }
}
