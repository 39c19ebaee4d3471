using CoatScan.Findings;
using CoatScan.Service.Page;
using CoatScan.Service.Page.Words;

namespace CoatScan.FunctionalTests.Page;

/// <summary>Readings as people of each language type them.</summary>
public sealed class TypedNumbersTests
{
    [Theory]
    [InlineData("de", "118,5 120,2", "118.5|120.2")]
    [InlineData("es", "118,5 120,2", "118.5|120.2")]
    [InlineData("de", "118,5", "118.5")]
    [InlineData("de", "118,50; 120,25", "118.5|120.25")]
    [InlineData("de", "118,50\n120,25\t99", "118.5|120.25|99")]
    [InlineData("de", "118, 125, 110", "118|125|110")]
    [InlineData("de", "118,5, 120", "118.5|120")]
    [InlineData("de", "118.5 120.2", "118.5|120.2")]
    [InlineData("de", "118;125;110;", "118|125|110")]
    [InlineData("en", "118, 125.5, 110", "118|125.5|110")]
    [InlineData("en", "118,125,110", "118|125|110")]
    [InlineData("en", "118.5,120.2", "118.5|120.2")]
    [InlineData("en", "118 125 110", "118|125|110")]
    [InlineData("en", "118,5; 120,2", "118.5|120.2")]
    public void Several_reads_what_can_be_meant_in_one_way_only(string language, string text, string expected) =>
        Assert.Equal(
            expected.Split('|').Select(one => double.Parse(one, System.Globalization.CultureInfo.InvariantCulture)),
            Of(language).Several(text, "film"));

    [Theory]
    [InlineData("de", "118,125", "118,125")] // 118.125, or 118 and 125
    [InlineData("de", "118,125,110", "118,125,110")]
    [InlineData("de", "118, 125,110", "125,110")]
    [InlineData("es", "1.250", "1.250")] // 1.25, or 1250
    [InlineData("es", "1.250,5", "1.250,5")]
    [InlineData("de", "1.250; 90", "1.250")]
    [InlineData("en", "118,5", "118,5")] // 118 and 5, or 118.5
    [InlineData("en", "118,5 120,2", "118,5")]
    [InlineData("en", "1,250", "1,250")]
    [InlineData("en", "1,250; 90", "1,250")]
    public void Several_refuses_what_can_be_meant_in_two_ways_and_names_the_field(string language, string text, string shown)
    {
        var refusal = Assert.Throws<CoatScanException>(() => Of(language).Several(text, "film"));

        Assert.Equal((ErrorReason.FieldInvalid, "film"), (refusal.Reason, refusal.Field));
        Assert.Contains(shown, refusal.Message, StringComparison.Ordinal);
        var words = PageWords.Of(language)!;
        Assert.Equal(words.Fill(words.ReadingsAmbiguous, shown), refusal.Message);
    }

    [Theory]
    [InlineData("de", "dick", "dick")]
    [InlineData("en", "118 µm", "µm")]
    [InlineData("es", ",", ",")]
    [InlineData("en", "118 NaN", "NaN")]
    [InlineData("en", ";", ";")]
    public void Several_refuses_what_is_no_number_and_says_so(string language, string text, string shown)
    {
        var refusal = Assert.Throws<CoatScanException>(() => Of(language).Several(text, "film"));

        var words = PageWords.Of(language)!;
        Assert.Equal(words.Fill(words.NoNumber, shown), refusal.Message);
    }

    [Theory]
    [InlineData("de", "0,25", 0.25)]
    [InlineData("en", "0.25", 0.25)]
    [InlineData("en", "0,25", 0.25)]
    [InlineData("es", "88", 88.0)]
    public void One_takes_either_decimal_mark(string language, string text, double expected) =>
        Assert.Equal(expected, Of(language).One(text, "scale"));

    [Fact]
    public void One_of_an_empty_field_is_none() => Assert.Null(Of("en").One("", "gloss"));

    private static TypedNumbers Of(string language) => new(PageWords.Of(language)!);
}
