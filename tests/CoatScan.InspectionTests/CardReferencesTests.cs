using CoatScan.Findings;
using CoatScan.Imaging.Cards;
using CoatScan.Inspection;
using CoatScan.Metrics;

namespace CoatScan.InspectionTests;

public sealed class CardReferencesTests
{
    [Fact]
    public void Fill_takes_what_the_caller_left_empty()
    {
        var facts = CardReferences.Fill(new PanelFacts(), [Card("AB 123", "hood"), Card("AB 123", "")]);

        Assert.Equal(("AB 123", "hood"), (facts.ExternalRef, facts.Panel));
    }

    [Fact]
    public void Fill_leaves_what_the_caller_states()
    {
        var facts = CardReferences.Fill(new PanelFacts { Panel = "roof", ExternalRef = "claim 7" }, [Card("AB 123", "hood")]);

        Assert.Equal(("claim 7", "roof"), (facts.ExternalRef, facts.Panel));
    }

    [Fact]
    public void Fill_cards_that_contradict_each_other_say_nothing()
    {
        var facts = CardReferences.Fill(new PanelFacts(), [Card("AB 123", "hood"), Card("AB 123", "roof")]);

        Assert.Equal(("AB 123", ""), (facts.ExternalRef, facts.Panel));
    }

    private static CardReading Card(string vehicle, string panel) => new(CardMessage.Of(46, vehicle, panel), 0.1, 0)
    {
        Corners = [(0, 0), (100, 0), (100, 60), (0, 60)],
        Scale = PlaneScale.Constant(0.1, 0.005),
        Uncertainty = 0.005,
        Gray = new GrayReading(null, null, null, null, "nothing"),
    };
}
