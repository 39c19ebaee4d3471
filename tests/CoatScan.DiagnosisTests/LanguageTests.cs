using System.Text.Json;
using CoatScan.Findings;
using CoatScan.Reports;

namespace CoatScan.DiagnosisTests;

/// <summary>Whatever the knowledge base and the diagnosis say can be said in every language of the sheets.</summary>
public sealed class LanguageTests
{
    // Files of models/knowledge/texts whose texts stand in the knowledge base word for word.
    private static readonly string[] OfKnowledge =
        ["conditions", "cards", "look-alikes", "causes", "remedies", "care", "cautions", "claim", "signs", "sources", "tests"];

    private static readonly (string Path, string Text)[] Knowledge =
    [
        .. SaidTexts.Of(Known.Base.Conditions, "conditions"),
        .. SaidTexts.Of(Known.Base.Evidence, "evidence"),
        .. SaidTexts.Of(Known.Base.Tests, "tests"),
        .. SaidTexts.Of(Known.Base.Operations, "operations"),
        .. SaidTexts.Of(Known.Base.Parties, "parties"),
        .. SaidTexts.Of(Known.Base.VisualClasses, "visual-classes"),
        .. SaidTexts.Of(Known.Base.Deciders, "deciders"),
        .. SaidTexts.Of(Known.Base.Contradictions, "contradictions"),
        .. SaidTexts.Of(Known.Base.Timing, "timing"),
        .. SaidTexts.Of(Known.Base.Cautions, "cautions"),
        .. SaidTexts.Of(Known.Base.Care, "care"),
        .. SaidTexts.Of(Known.Base.Film, "film"),
        .. SaidTexts.Of(Known.Base.Finishes, "finishes"),
        .. SaidTexts.Of(Known.Base.Waits, "waits"),
        .. SaidTexts.Of(Known.Base.Claim, "claim"),
        .. SaidTexts.Of(Known.Base.HandOvers, "handovers"),
        .. SaidTexts.Of(Known.Base.SprayDay, "spray-day"),
        .. Known.Base.Sources.Values.Select(one => ($"sources.{one.Key}", one.Text)),
    ];

    public static TheoryData<string> Languages => [.. SheetWords.All.Select(words => words.Language).Where(language => language != "en")];

    [Theory]
    [MemberData(nameof(Languages))]
    public void Say_knows_every_text_of_the_knowledge_base(string language)
    {
        TradeWords words = TradeWords.Of(language);

        Assert.True(Knowledge.Length > 1800, $"Only {Knowledge.Length} texts were found in the knowledge base.");
        AssertSaid(Knowledge, words);
    }

    [Theory]
    [MemberData(nameof(Languages))]
    public void Say_knows_every_text_of_the_answers_to_all_cases(string language) => AssertSaid(
        PanelCase.All.SelectMany(one => SaidTexts.Of(Known.Diagnostician.Diagnose(one.Facts, null), one.Id)), TradeWords.Of(language));

    [Theory]
    [MemberData(nameof(Languages))]
    public void Say_knows_every_text_of_the_answers_to_photos(string language)
    {
        PanelFacts[] knowns =
        [
            new(),
            new() { Evidence = ["finish.repaint", "finish.age_under_1_month"], AppliedOn = new DateOnly(2026, 10, 1), Readings = new() { FilmUm = [118, 240, 131] } },
            new() { Panel = "door", Evidence = ["finish.matte", "history.sudden"], Readings = new() { FilmUm = [95, 99], FaultDepthUm = 3, Gloss60 = 88 } },
        ];
        AssertSaid(
            from visualClass in Known.Base.VisualClasses.Values
            where visualClass.Panel
            from share in new[] { 0.95, 0.5, 0.3 }
            from facts in knowns
            from text in SaidTexts.Of(Known.Diagnostician.Diagnose(facts, Known.Photo(visualClass.Id, share)), $"{visualClass.Id} {share}")
            select text,
            TradeWords.Of(language));
    }

    [Theory]
    [MemberData(nameof(Languages))]
    public void Say_knows_every_text_of_what_lies_over_the_paint(string language) => AssertSaid(
        Known.Base.Finishes.SelectMany(rule => SaidTexts.Of(Known.Diagnose(rule.Evidence, "form.domes", "relief.raised"), rule.Evidence)),
        TradeWords.Of(language));

    // Every limit met, missed by little and missed by much, for every finish.
    [Theory]
    [MemberData(nameof(Languages))]
    public void Say_knows_every_text_of_a_spray_day(string language)
    {
        var planner = new SprayDayPlanner(Known.Base);
        AssertSaid(
            from finish in Enum.GetValues<SprayFinish>()
            from air in new[] { 5.0, 12.5, 24.0, 38.0 }
            from humidity in new[] { 30.0, 72.5, 80.0, 96.0 }
            from panel in new double?[] { null, 4.0, 17.5, 27.0, 45.0 }
            let plan = planner.Plan(new SprayQuestion(
                finish, SprayJob.OnePanel, new SprayAir("", air, humidity, panel), [new SprayAir("14:00", air, humidity, panel)]))
            from text in SaidTexts.Of(plan.Gates.Select(gate => gate.Text), "gates")
                .Concat(SaidTexts.Of(plan.Hours.Select(hour => hour.Text), "hours"))
                .Concat(SaidTexts.Of(plan.Notes, "notes"))
                .Concat(SaidTexts.Of(new[] { plan.Recoat, plan.Pot, plan.ProductSheet }, "plan"))
            select text,
            TradeWords.Of(language));
    }

    [Fact]
    public void Texts_hold_nothing_that_the_knowledge_base_no_longer_says()
    {
        HashSet<string> said = [.. Knowledge.Select(one => one.Text)];

        Assert.DoesNotContain(OfKnowledge.SelectMany(TextsOf), text => !said.Contains(text));
    }

    private static void AssertSaid(IEnumerable<(string Path, string Text)> texts, TradeWords words)
    {
        (string Path, string Text)[] each = [.. texts.DistinctBy(one => one.Text)];
        Assert.True(each.Length > 50, $"Only {each.Length} texts were found.");
        Assert.Empty(string.Join('\n', each.Where(one => !words.Knows(one.Text)).Select(one => $"{one.Path}: {one.Text}")));
    }

    private static IEnumerable<string> TextsOf(string file)
    {
        using Stream stream = typeof(SheetWords).Assembly.GetManifestResourceStream("texts/" + file)!;
        using JsonDocument document = JsonDocument.Parse(stream);
        return [.. document.RootElement.EnumerateObject().Select(one => one.Name)];
    }
}
