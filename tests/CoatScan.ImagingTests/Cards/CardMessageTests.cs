using CoatScan.Findings;
using CoatScan.Imaging.Cards;

namespace CoatScan.ImagingTests.Cards;

public sealed class CardMessageTests
{
    [Theory]
    [InlineData("", "", "CSC1;46.0;;")]
    [InlineData("AB-12 345", "front left door", "CSC1;46.0;AB-12 345;front left door")]
    [InlineData("50 %; new", "Tür", "CSC1;46.0;50 %25%3B new;T%C3%BCr")]
    public void Text_comes_back(string vehicle, string panel, string text)
    {
        var message = CardMessage.Of(46, vehicle, panel);

        Assert.Equal(text, message.ToText());
        Assert.Equal(message, CardMessage.Parse(text));
    }

    [Theory]
    [InlineData("")]
    [InlineData("an address on a poster")]
    [InlineData("CSC1;46.0;;;")]
    [InlineData("CSC2;46.0;;")]
    [InlineData("CSC1;;;")]
    [InlineData("CSC1;-46;;")]
    [InlineData("CSC1;NaN;;")]
    [InlineData("CSC1;1e3;;")]
    [InlineData("CSC1;0.1;;")]
    [InlineData("CSC1;46.0;%0A;")]
    public void Parse_other_text_is_no_card(string text) => Assert.Null(CardMessage.Parse(text));

    [Fact]
    public void Of_refuses_references_that_do_not_fit()
    {
        var refusal = Assert.Throws<CoatScanException>(() => CardMessage.Of(46, new string('x', 40), new string('y', 10)));

        Assert.Contains("1 characters too long", refusal.Message, StringComparison.Ordinal);
        Assert.Throws<CoatScanException>(() => CardMessage.Of(46, "a\nb", ""));
    }
}
