using CoatScan.Cli.Text;
using CoatScan.Reports;
using CoatScan.V1;

namespace CoatScan.FunctionalTests.CommandLine;

public sealed class FindingTextTests
{
    private const int Unwrapped = 1000;

    [Fact]
    public void Write_full_finding_answers_every_question_in_trade_words()
    {
        var text = Page(SampleFinding.Full(), Unwrapped);

        string[] expected =
        [
            "hood.jpg, hood",
            "WHAT     Water-spot ring etching, not yet certain: likely (62 %).",
            "Otherwise: Hard-water mineral deposit 21 %.",
            "SEEN     Rings, very likely (92 %), upper left (on 12 % of the photo).",
            "FOR      The photo shows rings (92 %) (strong).",
            "AGAINST  Waxed regularly (slight).",
            "RATED    ISO 4628-1: quantity 3 (41 spots).",
            "Spot count: 41; spot diameter: 37.2 px, give or take 2 px.",
            "Not measured: spot density per dm2, because no scale.",
            "PHOTO    No scale is known, lengths are in pixels.",
            "WHO      Not decided. Owner care or neglect 52 %; fallout, weather, animals, plants 41 %.",
            "CAUSE    Drops left to dry in the sun, 70 %",
            "WHEN     It comes from one event or many small ones.",
            "FIRST    Wash, dry in shade. Stop when the mark is gone.",
            "THEN     Hand cleaner-polish. About 0.5 to 1.5 hours.",
            "NEVER    Polish by machine (not before that is cleared): grinds salt crust in.",
            "TEST     Mild acid wipe (5 minutes, touches the surface).",
            "OPEN     Hard-water mineral deposit looks alike.",
            "CLASH    Factory film above 300 um is not credible. Who answers stays open",
            "SAFETY   Acid only diluted, on a cool panel.",
        ];
        Assert.All(expected, line => Assert.Contains(line, text, StringComparison.Ordinal));
    }

    [Theory]
    [InlineData(47.93, 42, "spot diameter: 48 px, give or take 42 px.")]
    [InlineData(0.0296, 0.26, "spot diameter: 0.03 px, give or take 0.26 px.")]
    [InlineData(1234.5, 60, "spot diameter: 1234 px, give or take 60 px.")]
    public void Write_says_no_more_places_than_the_half_width_supports(double value, double half, string said)
    {
        var finding = SampleFinding.Full();
        var measured = finding.Measurements.Single(one => one.Metric == "spot_diameter");
        (measured.Value, measured.Uncertainty) = (value, half);

        Assert.Contains(said, Page(finding, Unwrapped), StringComparison.OrdinalIgnoreCase);
    }

    [Fact]
    public void Write_says_how_each_class_was_checked_what_is_beside_it_and_what_cannot_be_excluded()
    {
        var finding = SampleFinding.Full();
        finding.SetCoverage = 0.9;
        var rings = finding.VisualClasses[0];
        rings.Possible = true;
        rings.Check = new ClassCheck { Basis = "RENDERED_ONLY", Photos = 16, Recall = 0.8 };
        finding.VisualClasses.Add(new VisualClassShare
        {
            VisualClass = "chips",
            Probability = 0.01,
            Possible = true,
            BesideProbability = 0.7,
            Check = new ClassCheck { Basis = "REAL_PHOTOS", Photos = 15, Recall = 0.4 },
        });

        var text = Page(finding, Unwrapped);

        Assert.Contains("upper left (on 12 % of the photo); checked on rendered images only.", text, StringComparison.Ordinal);
        Assert.Contains(
            "Chips, a second fault beside the first, likely (70 %); checked on 15 real photos, 40 % of them found.", text, StringComparison.Ordinal);
        Assert.Contains("The photos cannot exclude: rings, chips (holds for 90 % of rendered panels", text, StringComparison.Ordinal);
    }

    [Fact]
    public void Write_picture_that_came_before_is_told_with_its_facts()
    {
        var finding = SampleFinding.Full();
        var earlier = new EarlierPicture
        {
            Finding = "findings/first",
            CreateTime = Google.Protobuf.WellKnownTypes.Timestamp.FromDateTimeOffset(new(2026, 5, 1, 9, 0, 0, TimeSpan.Zero)),
            SameBytes = true,
            CaptureTime = "2026-04-30T08:00:00",
        };
        finding.Photos[0].SeenBefore.Add(earlier);
        finding.Photos[0].SeenBefore.Add(new EarlierPicture(earlier) { SameBytes = false, DistanceBits = 4 });
        finding.Photos[0].SeenBefore[1].ClearCaptureTime();

        var text = Page(finding, Unwrapped);

        Assert.Contains(
            "AGAIN    Photo 1 shows the same picture as one of findings/first of 2026-05-01 "
            + "(the same file; it says it was taken 2026-04-30 08:00:00).",
            text,
            StringComparison.Ordinal);
        Assert.Contains("(another file, 4 of 64 bits apart).", text, StringComparison.Ordinal);
    }

    [Fact]
    public void Write_full_finding_shows_no_ids_no_fractions_and_no_terminal_codes()
    {
        var text = Page(SampleFinding.Full());

        string[] forbidden = ["_", "0.62", "conditions/", "findings/", "\u001b", "base"];
        Assert.All(forbidden, mark => Assert.DoesNotContain(mark, text, StringComparison.Ordinal));
        Assert.All(text, letter => Assert.True(char.IsAscii(letter)));
    }

    [Theory]
    [InlineData(40)]
    [InlineData(80)]
    [InlineData(100)]
    public void Write_full_finding_wraps_at_the_width(int widthColumns)
    {
        var lines = Page(SampleFinding.Full(), widthColumns).Split('\n');

        Assert.All(lines, line => Assert.InRange(line.Length, 0, widthColumns));
    }

    [Fact]
    public void Write_full_finding_is_25_to_40_lines_at_80_columns() =>
        Assert.InRange(Page(SampleFinding.Full()).TrimEnd().Split('\n').Length, 25, 40);

    [Fact]
    public void Write_photo_that_cannot_be_judged_says_what_is_missing_and_blames_nobody()
    {
        var finding = new Finding
        {
            Verdict = Verdict.NotAssessable,
            VerdictReasons = { "the photo is too blurred" },
            Photos =
            {
                new PhotoReport
                {
                    Issues = { new PhotoIssue { Code = "BLURRED", Detail = "sharpness 0.1, limit 0.3", HowToFix = "hold still" } },
                },
            },
            Parties = { new PartyShare { Party = "applicator", Probability = 0.3 } },
        };

        var text = Page(finding);

        Assert.Contains("Cannot be judged from what was sent.", text, StringComparison.Ordinal);
        Assert.Contains("MISSING  The photo is too blurred.", text, StringComparison.Ordinal);
        Assert.Contains("To do: Hold still.", text, StringComparison.Ordinal);
        Assert.DoesNotContain("WHO", text, StringComparison.Ordinal);
    }

    [Fact]
    public void Write_undecided_finding_names_the_leaders_and_what_is_missing()
    {
        var finding = SampleFinding.Full();
        finding.Verdict = Verdict.Inconclusive;

        var text = Page(finding, Unwrapped);

        Assert.Contains(
            "Not decided. Leading: Water-spot ring etching 62 %, then Hard-water mineral deposit 21 %.",
            text,
            StringComparison.Ordinal);
        Assert.Contains("MISSING  Hard-water mineral deposit is still possible", text, StringComparison.Ordinal);
    }

    [Fact]
    public void Write_name_with_control_characters_cannot_drive_the_terminal()
    {
        var page = new TextPage(80, styled: false);

        FindingText.Write(page, "evil\u001b[2J\u0007.jpg", SampleFinding.Full());

        Assert.DoesNotContain('\u001b', page.ToString());
        Assert.DoesNotContain('\u0007', page.ToString());
    }

    [Theory]
    [InlineData("", "")]
    [InlineData("stop when the mark is gone", "Stop when the mark is gone.")]
    [InlineData("move on only if the result is not accepted", "Move on only if the result is not accepted.")]
    [InlineData("sheen gone", "Stop when: sheen gone.")]
    public void StopWords_sign_or_sentence_is_a_sentence(string stopIf, string expected) =>
        Assert.Equal(expected, RemedyText.StopWords(stopIf, ReaderWords.English));

    [Theory]
    [InlineData(0, "0 %")]
    [InlineData(0.004, "under 1 %")]
    [InlineData(0.6234, "62 %")]
    [InlineData(0.996, "over 99 %")]
    [InlineData(1, "100 %")]
    public void Percent_never_rounds_to_certainty(double probability, string expected) =>
        Assert.Equal(expected, Findings.ShareText.Percent(probability));

    [Theory]
    [InlineData(0, 0, 30, 30, "upper left")]
    [InlineData(70, 70, 100, 100, "lower right")]
    [InlineData(40, 40, 60, 60, "center")]
    [InlineData(40, 0, 60, 20, "upper middle")]
    [InlineData(0, 40, 20, 60, "left side")]
    [InlineData(0, 0, 100, 100, "most of the photo")]
    public void Of_region_is_a_place_in_words(int startX, int startY, int endX, int endY, string expected) =>
        Assert.Equal(expected, Place.Of(
            [new Region { StartXPx = startX, StartYPx = startY, EndXPx = endX, EndYPx = endY }],
            [new PhotoReport { WidthPx = 100, HeightPx = 100 }],
            ReaderWords.English));

    [Fact]
    public void Write_photo_that_shows_nothing_wrong_claims_no_more()
    {
        var finding = new Finding
        {
            Verdict = Verdict.Provisional,
            VerdictReasons = { "a photo is no proof" },
            Conditions =
            {
                new ConditionShare { Condition = "conditions/sound", DisplayName = "Sound finish", Probability = 0.36 },
                new ConditionShare { Condition = "conditions/swirl", DisplayName = "Swirl marks", Probability = 0.09 },
            },
        };

        var text = Page(finding);

        Assert.Contains("WHAT     Nothing wrong shows; not yet certain that it is sound.", text, StringComparison.Ordinal);
        Assert.Contains("Still possible: Swirl marks 9 %.", text, StringComparison.Ordinal);
        Assert.Contains("NOT YET  A photo is no proof.", text, StringComparison.Ordinal);
        Assert.DoesNotContain("WHO", text, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(0.4, "the likeliest of several")]
    [InlineData(0.64, "likely")]
    public void WordsOfLeading_never_call_the_leading_one_unlikely(double probability, string expected) =>
        Assert.Equal(expected, Share.WordsOfLeading(probability));

    [Theory]
    [InlineData("de", "WAS      Ringverätzung durch Wasserflecken, noch nicht sicher: wahrscheinlich (62 %).", "Etwa 0,5 bis 1,5 Stunden.", "PRÜFEN   Probe mit milder Säure (5 Minuten, berührt die Oberfläche).")]
    [InlineData("es", "QUÉ ES   Anillos grabados por gotas de agua, aún no seguro: probable (62 %).", "Unas 0,5 a 1,5 horas.", "PRUEBE   Pasada de ácido suave (5 minutos, toca la superficie).")]
    public void Page_is_in_the_language_of_its_reader(string language, string what, string hours, string test)
    {
        var page = new TextPage(100, styled: false, SheetWords.Of(language));

        FindingText.Write(page, "hood.jpg", SampleFinding.Full());

        var text = page.ToString();
        Assert.Contains(what, text, StringComparison.Ordinal);
        Assert.Contains(hours, text, StringComparison.Ordinal);
        Assert.Contains(test, text, StringComparison.Ordinal);
        var labels = text.Split('\n').Where(line => line.Length > 9 && line[8] == ' ' && line[0] != ' ').Select(line => line[..8].Trim()).ToList();
        Assert.DoesNotContain(labels, label => label is "WHAT" or "SEEN" or "FOR" or "AGAINST" or "WHO" or "CAUSE" or "WHEN" or "FIRST" or "THEN" or "NEVER" or "TEST" or "SAFETY");
        Assert.Equal(VerdictText.Headline(SampleFinding.Full(), new ReaderWords(SheetWords.Of(language))).Split(':')[0], what[9..].Split(':')[0]);
    }

    // Whatever the program itself says on a page; a label takes nine columns with its space.
    [Theory]
    [InlineData("de")]
    [InlineData("es")]
    public void Every_word_of_the_program_on_a_page_has_a_text(string language)
    {
        var trade = SheetWords.Of(language).Trade;
        string[] labels =
        [
            "WHAT", "BESIDE", "MISSING", "NOT YET", "LIMITS", "SEEN", "FOR", "AGAINST", "RATED", "MEASURED", "FILM", "BUDGET", "PHOTO", "AGAIN", "WHO", "CAUSE",
            "WHEN", "ASK", "FIRST", "THEN", "HAND ON", "NEVER", "LATER", "TEST", "OPEN", "CLASH", "SAFETY",
            "AIR", "THINNER", "FLASH", "RETARDER", "COAT", "RECOAT", "POT", "MIND", "SHEET", "LOOK", "NOT", "DO", "PREVENT", "SOURCE",
        ];
        string[] timings = ["GRADUAL", "EVENT", "EVENT_OR_ACCUMULATED", "WORKMANSHIP", "AGEING_OR_WORKMANSHIP"];
        string[] places = ["center", "upper middle", "lower middle", "left side", "right side", "upper left", "upper right", "lower left", "lower right", "most of the photo"];
        string[] said =
        [
            .. labels, .. places,
            .. timings.Select(one => $"It comes {CoatScan.Cli.Text.TradeWords.Timing(one)}."),
            .. Enumerable.Range(0, 4).Select(CoatScan.Cli.Text.TradeWords.Trace),
            .. new[] { "until_met", "now" }.Select(CoatScan.Cli.Text.TradeWords.Scope),
            .. new[] { 0.99, 0.9, 0.7, 0.5, 0.2, 0.01 }.Select(Share.Words), Share.WordsOfLeading(0.3),
            .. new[] { Verdict.Conclusive, Verdict.Provisional, Verdict.Inconclusive, Verdict.Sound, Verdict.NotAssessable }.Select(OverviewRow.Word),
            "no fault seen", "failed", "send it again", "take a better photo", "name", "verdict", "leading condition", "share", "first",
        ];

        Assert.All(said, text => Assert.True(trade.Knows(text), text));
        Assert.All(said, text => Assert.NotEqual(text, trade.Fill(text)));
        Assert.All(labels, label => Assert.InRange(trade.Fill(label).Length, 2, 8));
    }

    // Words of pages that tell of a spray day, a batch, a condition or the reasoning.
    [Theory]
    [InlineData("de")]
    [InlineData("es")]
    public void Every_word_of_the_other_pages_has_a_text(string language)
    {
        var trade = SheetWords.Of(language).Trade;
        SprayVerdict[] verdicts = [SprayVerdict.Spray, SprayVerdict.SprayWithCare, SprayVerdict.DoNotSpray];
        string[] onsets = ["at_spraying", "hours_days", "weeks_months", "years", "instant_event"];
        string[] said =
        [
            .. verdicts.Select(one => SprayPlanText.Headline(new SprayPlan { Verdict = one })), .. verdicts.Select(SprayPlanText.Mark),
            "fast", "medium", "slow", "extra slow", "hour", "spray", "dew point", "why",
            "none", "clean", "hand polish", "machine polish", "local repair", "panel refinish", "strip or metal", "replace",
            "vehicle", "panel", "remedy", "hours", "{0} vehicles, worst first", "1 vehicle", "{0} of {1} panels graded", "{0} failed", "{0} cancelled",
            "{0} of {1} photos sent", "{0} of {1} vehicles on sheets", "{0} a second, {1} left", "{0}: not used ({1}). {2}", "failed: {0}",
            "PHOTOGRAPH AGAIN while the vehicle is there",
            "test", "gain", "minutes", "trace", "sum", "share", "evidence", "said by", "how often it is met", "limit of a group", "meaning",
            "also called", "family", .. onsets.Select(ConditionText.Onset),
            "Strongly", "Also", "All but rules it out", "Speaks against it", "Answers: {0}.", "Family: {0}.", "Met on: {0}.", "Also called {0}.",
        ];

        Assert.All(said, text => Assert.True(text.Length > 0 && trade.Fill(text) != text || text == "no", text));
    }

    [Theory]
    [InlineData("de", "Begründung. Jede Zahl", "Ursachen, nach derselben Regel: ", "wie oft es vorkommt", "0,")]
    [InlineData("es", "Razonamiento. Cada número", "Causas, por la misma regla: ", "con qué frecuencia se da", "0,")]
    public void Explanation_is_in_the_language_of_its_reader(string language, params string[] parts)
    {
        var page = new TextPage(200, styled: false, SheetWords.Of(language));

        ExplainText.Write(page, SampleFinding.Full(), 200);

        Assert.All(parts, part => Assert.Contains(part, page.ToString(), StringComparison.Ordinal));
        Assert.DoesNotContain("said by", page.ToString(), StringComparison.Ordinal);
    }

    private static string Page(Finding finding, int widthColumns = 80)
    {
        var page = new TextPage(widthColumns, styled: false);
        FindingText.Write(page, "hood.jpg", finding);
        return page.ToString();
    }
}
