using System.Text.RegularExpressions;

namespace CoatScan.ReportsTests;

/// <summary>The texts in further languages, each for itself.</summary>
public sealed partial class TradeTextTests
{
    // Words that are English in every sentence and no word of the other language.
    private static readonly Dictionary<string, string> Foreign = new(StringComparer.Ordinal)
    {
        ["de"] = "the|and|of|with|not|or|is|are|from|when|after|before|which|it|that|by|until|paint|panel|clear|look|wash|rust",
        ["es"] = "the|and|of|with|not|or|is|are|from|when|after|before|which|it|that|by|until|paint|panel|clear|look|wash|rust",
    };

    public static TheoryData<string> Languages => [.. Foreign.Keys];

    [Fact]
    public void Every_language_of_the_sheets_has_texts() =>
        Assert.Equal(SheetWords.All.Select(words => words.Language).Where(one => one != "en").Order(), Foreign.Keys.Order());

    [Theory]
    [MemberData(nameof(Languages))]
    public void Every_text_is_there_with_the_same_blanks_and_numbers(string language)
    {
        Assert.True(TradeTexts.All.Count > 1900, $"Only {TradeTexts.All.Count} texts.");
        AssertNone(TradeTexts.All.Where(one => !one.Value.ContainsKey(language) || one.Value.Count != Foreign.Count).Select(one => one.Key));
        AssertNone(TradeTexts.All
            .Where(one => !Numbers(one.Key).Select(ReaderFormat.Of(language).Number).SequenceEqual(Numbers(one.Value[language])) || !Blanks(one.Key).SequenceEqual(Blanks(one.Value[language])))
            .Select(one => $"{one.Key} -> {one.Value[language]}"));
    }

    [Theory]
    [MemberData(nameof(Languages))]
    public void No_english_is_left(string language) => AssertNone(TradeTexts.All
        .Select(one => NameOfOption().Replace(one.Value[language], ""))
        .Where(text => Regex.IsMatch(text, $@"\b({Foreign[language]})\b", RegexOptions.CultureInvariant)));

    [Theory]
    [MemberData(nameof(Languages))]
    public void A_text_that_forbids_forbids_in_every_language(string language)
    {
        string denial = language == "de"
            ? "nie|niemals|nicht|kein|keine|keinen|keiner|nichts|niemanden|ohne|darf|weder|niemand|Niemand"
            : "no|No|nunca|Nunca|ni|nada|nadie|sin";

        AssertNone(TradeTexts.All
            .Where(one => Never().IsMatch(one.Key) && !Regex.IsMatch(one.Value[language], $@"\b({denial})\b", RegexOptions.CultureInvariant))
            .Select(one => $"{one.Key} -> {one.Value[language]}"));
    }

    [Theory]
    [InlineData("de", "Blistering", "Blasenbildung")]
    [InlineData("de", "blistering", "Blasenbildung")]
    [InlineData("es", "blistering", "ampollas")]
    [InlineData("es", "Photo 3: The shorter side has 480 px; the limit is 800 px.", "Foto 3: El lado corto tiene 480 px; el límite es 800 px.")]
    [InlineData("de", "Blistering leads with 61.2 %; next is Stone chips with 9 %.", "Vorn liegt Blasenbildung mit 61,2 %; danach Steinschläge mit 9 %.")]
    [InlineData("es", "wash or polish by machine", "lavar o pulir a máquina")]
    [InlineData("es", "wash and iron indicator shows nothing", "lavar y el indicador de hierro no muestra nada")]
    [InlineData("es", "polish by machine or cracks", "pulir a máquina o grietas")]
    [InlineData("en", "at most 5 um", "at most 5 µm")]
    public void Say_finds_texts_in_texts(string language, string english, string said) => Assert.Equal(said, TradeWords.Of(language).Say(english));

    [Theory]
    [MemberData(nameof(Languages))]
    public void Say_leaves_a_text_whole_that_it_does_not_know_in_full(string language)
    {
        const string text = "Blistering leads with 61.2 %; next is a thing nobody knows with 9 %.";

        Assert.False(TradeWords.Of(language).Knows(text));
        Assert.Equal(text, TradeWords.Of(language).Say(text));
    }

    [Theory]
    [InlineData("de", "--paper takes a4 or letter, not 'door'.", "--paper nimmt a4 oder letter, nicht 'door'.")]
    [InlineData("es", "--paper takes a4 or letter, not 'door'.", "--paper admite a4 o letter, no 'door'.")]
    [InlineData("de", "--gloss-60 takes numbers with a decimal point, not '1.5x'.", "--gloss-60 nimmt Zahlen mit Dezimalpunkt, nicht '1.5x'.")]
    [InlineData("de", "--panel takes numbers with a decimal point, not ''.", "--panel nimmt Zahlen mit Dezimalpunkt, nicht ''.")]
    [InlineData("es", "The file is larger than the 31.5 MiB that the service takes.", "El archivo supera los 31,5 MiB que admite el servicio.")]
    [InlineData(
        "de",
        "--out: 'hood/x' cannot be written to: Could not find a part of the path 'hood'. Name a folder that this account may write to, on a disk with room.",
        "--out: In 'hood/x' lässt sich nicht schreiben: Ein Teil des Pfads 'hood' fehlt. Nennen Sie einen Ordner, in den dieses Konto schreiben darf und auf dessen Platte Platz ist.")]
    [InlineData("es", "The service could not start: the disk sings.", "El servicio no pudo iniciarse: the disk sings.")]
    [InlineData(
        "es",
        "--evidence: evidence[0] 'form.ring' is no id of the evidence vocabulary. Did you mean 'form.rings'? 'coatscan evidence' lists the ids.",
        "--evidence: evidence[0]: no existe el código 'form.ring'. ¿Quiere decir 'form.rings'? 'coatscan evidence' da la lista de códigos.")]
    [InlineData("en", "Nothing fits.", "Nothing fits.")]
    public void Complain_keeps_what_somebody_typed_or_a_library_says(string language, string english, string said) =>
        Assert.Equal(said, TradeWords.Of(language).Complain(english));

    [Fact]
    public void Say_does_not_change_what_is_in_the_language_already()
    {
        TradeWords words = TradeWords.Of("de");
        Assert.All(TradeTexts.All.Keys.Where(english => !english.Contains('{', StringComparison.Ordinal)), english =>
            Assert.Equal(words.Say(english), words.Say(words.Say(english))));
    }

    private static void AssertNone(IEnumerable<string> wrong) => Assert.Empty(string.Join('\n', wrong));

    // 2K and 1K are trade words for two- and one-component.
    private static IEnumerable<string> Numbers(string text) =>
        Number().Matches(Component().Replace(Blank().Replace(text, ""), "")).Select(one => one.Value).Order(StringComparer.Ordinal);

    private static IEnumerable<string> Blanks(string text) => Blank().Matches(text).Select(one => one.Value).Order(StringComparer.Ordinal);

    [GeneratedRegex(@"\{[0-9]\}")]
    private static partial Regex Blank();

    [GeneratedRegex(@"\b[12]K")]
    private static partial Regex Component();

    // Names of options are the same in every language.
    [GeneratedRegex("--[a-z0-9-]+")]
    private static partial Regex NameOfOption();

    // The 2 of cm2 is part of a unit, which may be written otherwise.
    [GeneratedRegex(@"(?<!m)[0-9]+([.,][0-9]+)?")]
    private static partial Regex Number();

    [GeneratedRegex(@"\b(never|Never|must not|do not|no dry sanding|no burning)\b")]
    private static partial Regex Never();
}
