using CoatScan.V1;

namespace CoatScan.Cli.Text;

/// <summary>One finding as a page for people, in the order of their questions.</summary>
internal static class FindingText
{
    /// <summary>Writes the page.</summary>
    /// <param name="page">Where to write.</param>
    /// <param name="name">The photo, panel or case as the user knows it.</param>
    /// <param name="finding">The finding.</param>
    public static void Write(TextPage page, string name, Finding finding)
    {
        ArgumentNullException.ThrowIfNull(page);
        ArgumentNullException.ThrowIfNull(finding);
        var panel = finding.Panel.Length > 0 ? $", {finding.Panel}" : "";
        page.Rule('=');
        page.Paragraph(name + panel, Style.Strong);
        page.Rule('-');
        VerdictText.Write(page, finding);
        ReasonText.Write(page, finding);
        MeasurementText.Write(page, finding);
        FilmText.Write(page, finding);
        PhotoText.Write(page, finding);
        AnswerText.Write(page, finding);
        RemedyText.Write(page, finding);
        NextTestText.Write(page, finding);
        DoubtText.Write(page, finding);
    }
}
