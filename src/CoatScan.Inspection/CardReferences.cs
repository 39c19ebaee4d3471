using CoatScan.Findings;
using CoatScan.Imaging.Cards;

namespace CoatScan.Inspection;

/// <summary>Files photos under the references that their scale cards carry.</summary>
internal static class CardReferences
{
    /// <summary>Fills in the panel and the reference that the caller left empty. Cards that contradict each other fill in nothing.</summary>
    /// <param name="facts">What the caller knows; what is stated there stays.</param>
    /// <param name="cards">The cards in the photos of the panel.</param>
    public static PanelFacts Fill(PanelFacts facts, IEnumerable<CardReading> cards)
    {
        var messages = cards.Select(card => card.Message).ToList();
        return facts with
        {
            Panel = facts.Panel.Length > 0 ? facts.Panel : TheOnly(messages.Select(message => message.Panel)),
            ExternalRef = facts.ExternalRef.Length > 0 ? facts.ExternalRef : TheOnly(messages.Select(message => message.Vehicle)),
        };
    }

    private static string TheOnly(IEnumerable<string> references) =>
        references.Where(reference => reference.Length > 0).Distinct(StringComparer.Ordinal).ToList() is [var only] ? only : "";
}
