using CoatScan.Findings;

namespace CoatScan.DiagnosisTests;

public class PhotoTests(ITestOutputHelper output)
{
    // By hand: factor = (sum over panel classes of P(c | condition) p(c | photo) / p(c in training)) ^ lambda.
    [Fact]
    public void Diagnose_photo_weight_is_the_weighted_log_of_the_lift()
    {
        PhotoEvidence photo = Known.Photo("rings", 0.7, 0.5);
        string[] panel = [.. Known.Base.VisualClasses.Values.Where(c => c.Panel).Select(c => c.Id)];
        double onPanel = panel.Sum(c => photo.Shares.Single(s => s.VisualClass == c).Probability);
        double lift = panel.Sum(c => Known.Base.ChanceToSee(c, "water_ring_etch")
            * (photo.Shares.Single(s => s.VisualClass == c).Probability / onPanel) * panel.Length);
        EvidenceWeight weight = Known.Diagnostician.Diagnose(new PanelFacts(), photo)
            .Conditions.Single(c => c.Condition == "water_ring_etch")
            .Evidence.Single(e => e.Id.StartsWith("photo.", StringComparison.Ordinal));
        Assert.Equal("photo.rings", weight.Id);
        Assert.Equal(0.5 * Math.Log(lift), weight.WeightLog, 1e-12);
    }

    [Theory]
    [InlineData("wavy_texture", "orange_peel")]
    [InlineData("runs", "run_sag")]
    [InlineData("wrinkles", "wrinkle_lift")]
    [InlineData("domes", "blistering")]
    [InlineData("craters", "fisheye")]
    [InlineData("nibs", "dust_nib")]
    [InlineData("pits", "solvent_pop")]
    [InlineData("single_scratch", "scratch")]
    [InlineData("swirl", "swirl")]
    [InlineData("repair_outline", "contour_map")]
    [InlineData("mottling", "mottling")]
    [InlineData("chips", "chip")]
    [InlineData("film_loss", "intercoat_peel")]
    [InlineData("dulling", "chalking")]
    [InlineData("sound", "sound")]
    public void Diagnose_clear_photo_leads_to_the_condition_it_shows(string visualClass, string condition)
    {
        PanelDiagnosis answer = Known.Diagnostician.Diagnose(new PanelFacts(), Known.Photo(visualClass));
        output.WriteLine($"{visualClass}: {answer.Verdict} " + string.Join(", ", answer.Conditions.Take(4).Select(c => $"{c.Condition} {c.Probability:0.00}")));
        Assert.Equal(condition, answer.Conditions[0].Condition);
    }

    [Fact]
    public void Diagnose_photo_alone_is_never_conclusive() =>
        Assert.All(Known.Base.VisualClasses.Keys, c => Assert.NotEqual(
            Verdict.Conclusive,
            Known.Diagnostician.Diagnose(new PanelFacts(), Known.Photo(c, 0.99, 1)).Verdict));

    [Fact]
    public void Diagnose_clear_photo_of_waves_is_provisional_and_spends_no_film()
    {
        PanelDiagnosis answer = Known.Diagnostician.Diagnose(new PanelFacts(), Known.Photo("wavy_texture", 0.95, 1));
        Assert.Equal(Verdict.Provisional, answer.Verdict);
        Assert.Equal(Verdict.Inconclusive, answer.PartyVerdict);
        Assert.Equal("orange_peel", answer.Conditions[0].Condition);
        Assert.All(answer.Remedy.Steps, s => Assert.False(Known.Base.Operations[s.Operation].SpendsFilm));
        Assert.Contains(answer.Remedy.MustNot, m => m is { Operation: "wet_sand", Scope: "now" });
        Assert.Equal("photo_raking", answer.NextTests.First(t => t.Test.StartsWith("photo", StringComparison.Ordinal)).Test);
    }

    // Lambda of the model card, rounded. What is likely calls for one action there; round spots, nibs and rust do not.
    [Theory]
    [InlineData("wavy_texture", Verdict.Provisional)]
    [InlineData("runs", Verdict.Provisional)]
    [InlineData("wrinkles", Verdict.Inconclusive)]
    [InlineData("craters", Verdict.Provisional)]
    [InlineData("crack_network", Verdict.Provisional)]
    [InlineData("film_loss", Verdict.Provisional)]
    [InlineData("chips", Verdict.Provisional)]
    [InlineData("domes", Verdict.Provisional)]
    [InlineData("deposits", Verdict.Inconclusive)]
    [InlineData("rust", Verdict.Inconclusive)]
    public void Diagnose_clear_photo_alone_is_provisional_where_one_action_leads(string visualClass, Verdict expected)
    {
        PanelDiagnosis answer = Known.Diagnostician.Diagnose(new PanelFacts(), Known.Photo(visualClass, 0.9, 0.96));
        output.WriteLine(string.Join("\n", answer.VerdictReasons));
        Assert.Equal(expected, answer.Verdict);
        Assert.Equal(Verdict.Inconclusive, answer.PartyVerdict);
        Assert.All(answer.Remedy.Steps, s => Assert.False(Known.Base.Operations[s.Operation].SpendsFilm));
    }

    [Fact]
    public void Diagnose_flat_photo_is_inconclusive()
    {
        PanelDiagnosis answer = Known.Diagnostician.Diagnose(
            new PanelFacts { Evidence = ["size.whole_area", "relief.raised", "finish.repaint", "color.unchanged"] },
            Known.Photo("wavy_texture", 0.3, 1));
        Assert.Equal(Verdict.Inconclusive, answer.Verdict);
        Assert.Contains(answer.VerdictReasons, r => r.Contains("not clear", StringComparison.Ordinal));
    }

    [Fact]
    public void Diagnose_unfamiliar_photo_is_inconclusive()
    {
        PanelDiagnosis answer = Known.Diagnostician.Diagnose(
            new PanelFacts(), Known.Photo("wavy_texture", 0.95, 1) with { Familiar = false });
        Assert.Equal(Verdict.Inconclusive, answer.Verdict);
        Assert.Contains(answer.VerdictReasons, r => r.Contains("unfamiliar", StringComparison.Ordinal));
    }

    [Fact]
    public void Diagnose_look_alikes_stay_open_however_clear_the_photo()
    {
        PanelDiagnosis answer = Known.Diagnostician.Diagnose(new PanelFacts(), Known.Photo("rings", 0.99, 1));
        Assert.NotEqual(Verdict.Conclusive, answer.Verdict);
        Assert.Contains(answer.LookAlikes, l => l.DecidingTests.Contains("acid") && l.DecidingTests.Contains("loupe"));
        Assert.Contains(answer.NextTests.Take(3), t => t.Test == "acid");
    }

    [Fact]
    public void Diagnose_deciding_test_beside_a_photo_is_conclusive_after_a_wash()
    {
        var facts = new PanelFacts
        {
            Evidence = ["test.mild_acid.removes", "test.ph_paper.below_5", "color.white_crust", "environment.hard_water", "relief.raised"],
        };
        PanelDiagnosis unwashed = Known.Diagnostician.Diagnose(facts, Known.Photo("deposits", 0.9, 1));
        Assert.Equal("mineral_deposit", unwashed.Conditions[0].Condition);
        Assert.Equal(Verdict.Provisional, unwashed.Verdict);
        Assert.Contains(unwashed.VerdictReasons, r => r.Contains("candidate until a wash", StringComparison.Ordinal));

        PanelDiagnosis answer = Known.Diagnostician.Diagnose(
            facts with { Evidence = [.. facts.Evidence, "test.wash.no_effect"] }, Known.Photo("deposits", 0.9, 1));
        Assert.Equal("mineral_deposit", answer.Conditions[0].Condition);
        Assert.Equal(Verdict.Conclusive, answer.Verdict);
    }

    [Fact]
    public void Diagnose_caller_form_replaces_the_photo()
    {
        var facts = new PanelFacts { Evidence = ["form.domes"] };
        PanelDiagnosis with = Known.Diagnostician.Diagnose(facts, Known.Photo("rust"));
        PanelDiagnosis without = Known.Diagnostician.Diagnose(facts, null);
        Assert.Equal(without.Conditions.Select(c => (c.Condition, c.Probability)), with.Conditions.Select(c => (c.Condition, c.Probability)));
        Assert.DoesNotContain(with.Evidence, e => e.Origin == EvidenceOrigin.Photo);
    }

    [Fact]
    public void Diagnose_measured_sign_counts_until_the_caller_names_one_of_its_group()
    {
        PhotoEvidence photo = Known.Photo("deposits") with { MeasuredSigns = ["size.1_to_5_mm"] };
        PanelDiagnosis measured = Known.Diagnostician.Diagnose(new PanelFacts(), photo);
        Assert.Contains(measured.Evidence, e => e is { Id: "size.1_to_5_mm", Origin: EvidenceOrigin.Photo });
        PanelDiagnosis said = Known.Diagnostician.Diagnose(new PanelFacts { Evidence = ["size.5_to_25_mm"] }, photo);
        Assert.DoesNotContain(said.Evidence, e => e.Id == "size.1_to_5_mm");
        Assert.Contains(said.Evidence, e => e is { Id: "size.5_to_25_mm", Origin: EvidenceOrigin.Caller });
    }

    [Fact]
    public void Diagnose_clear_photo_of_a_sound_panel_alone_is_provisional_and_says_why()
    {
        PanelDiagnosis answer = Known.Diagnostician.Diagnose(new PanelFacts(), Known.Photo("sound", 0.99, 1));
        Assert.Equal(Verdict.Provisional, answer.Verdict);
        Assert.Equal("sound", answer.Conditions[0].Condition);
        Assert.Contains(answer.VerdictReasons, r => r.Contains("no proof", StringComparison.Ordinal));
        Assert.Contains(answer.NextTests, t => t.Test == "photo_raking");
        Assert.All(answer.Remedy.Steps, s => Assert.False(Known.Base.Operations[s.Operation].SpendsFilm));
        Assert.StartsWith("What we see: nothing wrong in what was shown.", answer.CustomerText, StringComparison.Ordinal);
        output.WriteLine(answer.CustomerText);
    }

    // No raking light: never sound (trade practice for photos as evidence).
    [Theory]
    [InlineData("gloss.normal")]
    [InlineData("test.water_bead.beads")]
    [InlineData("test.cloth_rub.clean")]
    public void Diagnose_sound_photo_is_sound_when_the_car_agrees_and_raking_light_shows_nothing(string evidence)
    {
        PanelDiagnosis unraked = Known.Diagnostician.Diagnose(new PanelFacts { Evidence = [evidence] }, Known.Photo("sound"));
        Assert.Equal(Verdict.Provisional, unraked.Verdict);
        Assert.Contains(unraked.VerdictReasons, r => r.Contains("raking light", StringComparison.Ordinal));

        PanelDiagnosis answer = Known.Diagnostician.Diagnose(
            new PanelFacts { Evidence = [evidence, "relief.flat"] }, Known.Photo("sound"));
        Assert.Equal(Verdict.Sound, answer.Verdict);
        Assert.Contains(unraked.VerdictReasons, r => r.Contains(Known.Base.Evidence[evidence].Text, StringComparison.Ordinal));
    }

    [Fact]
    public void Diagnose_sound_photo_is_sound_when_a_reading_agrees() => Assert.Equal(
        Verdict.Sound,
        Known.Diagnostician.Diagnose(
            new PanelFacts { Evidence = ["relief.flat"], Readings = new Readings { Gloss60 = 92 } }, Known.Photo("sound")).Verdict);

    [Theory]
    [InlineData(1, false, Verdict.Provisional)]
    [InlineData(2, false, Verdict.Provisional)]
    [InlineData(2, true, Verdict.Sound)]
    public void Diagnose_second_photo_does_not_replace_raking_light(int photos, bool isRaked, Verdict verdict) => Assert.Equal(
        verdict,
        Known.Diagnostician.Diagnose(
            new PanelFacts { Evidence = isRaked ? ["relief.flat"] : [] }, Known.Photo("sound") with { PhotoCount = photos }).Verdict);

    [Fact]
    public void Diagnose_photo_that_glare_covers_does_not_make_it_sound()
    {
        PhotoEvidence photo = Known.Photo("sound") with { SoundDoubts = ["Photo 1: 12 % is clipped."] };
        PanelDiagnosis answer = Known.Diagnostician.Diagnose(new PanelFacts { Evidence = ["relief.flat", "gloss.normal"] }, photo);

        Assert.Equal(Verdict.Provisional, answer.Verdict);
        Assert.Contains("Photo 1: 12 % is clipped.", answer.VerdictReasons);
    }

    [Fact]
    public void Diagnose_form_named_at_the_car_under_both_lights_needs_no_more()
    {
        string[] signs = ["form.none", "gloss.normal", "color.unchanged", "test.tape_pull.holds", "test.cloth_rub.clean"];
        PanelDiagnosis answer = Known.Diagnostician.Diagnose(new PanelFacts { Evidence = signs }, photo: null);

        Assert.Equal(Verdict.Sound, answer.Verdict);
    }

    [Theory]
    [InlineData(true, Verdict.Conclusive)]
    [InlineData(false, Verdict.Provisional)]
    public void Diagnose_color_mismatch_needs_a_neighbor(bool isCompared, Verdict verdict)
    {
        string[] signs =
        [
            "form.uniform_change", "relief.flat", "size.whole_area", "location.one_panel", "location.stops_at_mask_line", "gloss.normal",
            "finish.repaint", "test.wash.no_effect", "test.polish_spot.no_effect", "test.wetting.no_effect",
        ];
        PanelDiagnosis answer = Known.Diagnostician.Diagnose(
            new PanelFacts { Evidence = isCompared ? [.. signs, "color.differs_from_neighbor"] : signs }, photo: null);

        Assert.Equal("color_mismatch", answer.Conditions[0].Condition);
        Assert.Equal(verdict, answer.Verdict);
        Assert.Equal(!isCompared, answer.VerdictReasons.Any(r => r.Contains("No neighbor", StringComparison.Ordinal)));
    }

    // A story about the car is no look at the paint.
    [Theory]
    [InlineData("care.waxed_regularly")]
    [InlineData("environment.garaged")]
    [InlineData("finish.factory")]
    public void Diagnose_sound_photo_and_a_story_is_provisional(string evidence) => Assert.Equal(
        Verdict.Provisional,
        Known.Diagnostician.Diagnose(new PanelFacts { Evidence = [evidence] }, Known.Photo("sound")).Verdict);

    [Fact]
    public void Diagnose_measured_sign_of_the_photo_itself_does_not_make_it_sound()
    {
        PhotoEvidence photo = Known.Photo("sound") with { MeasuredSigns = ["gloss.normal"] };
        Assert.Equal(Verdict.Provisional, Known.Diagnostician.Diagnose(new PanelFacts(), photo).Verdict);
    }

    [Theory]
    [InlineData("color.rust")]
    [InlineData("test.cloth_rub.powder")]
    [InlineData("measured.gloss_60_under_70")]
    public void Diagnose_sound_photo_with_something_said_against_is_not_sound(string evidence) =>
        Assert.NotEqual(
            Verdict.Sound,
            Known.Diagnostician.Diagnose(new PanelFacts { Evidence = [evidence] }, Known.Photo("sound")).Verdict);

    [Fact]
    public void Diagnose_doubtful_photo_of_a_sound_panel_is_not_sound() => Assert.NotEqual(
        Verdict.Sound, Known.Diagnostician.Diagnose(new PanelFacts(), Known.Photo("sound", 0.45)).Verdict);

    [Fact]
    public void Diagnose_no_panel_gives_no_condition()
    {
        PanelDiagnosis answer = Known.Diagnostician.Diagnose(
            new PanelFacts { Evidence = ["finish.repaint"] }, Known.Photo("not_a_panel"));
        Assert.Equal(Verdict.NotAssessable, answer.Verdict);
        Assert.Empty(answer.Conditions);
        Assert.Empty(answer.Remedy.Steps);
        Assert.NotEmpty(answer.CustomerText);
        Assert.Contains(answer.Cautions, c => c.Contains("for people to decide", StringComparison.Ordinal));
    }

    [Fact]
    public void Diagnose_no_panel_but_a_form_of_the_caller_ranks_what_the_caller_says()
    {
        var facts = new PanelFacts { Evidence = ["form.domes"] };
        PanelDiagnosis answer = Known.Diagnostician.Diagnose(facts, Known.Photo("not_a_panel"));
        Assert.Equal(Known.Diagnostician.Diagnose(facts, null).Conditions[0].Probability, answer.Conditions[0].Probability);
    }

    [Fact]
    public void Diagnose_photo_evidence_that_does_not_fit_is_a_programming_error()
    {
        PhotoEvidence photo = Known.Photo("rings");
        Refused(photo with { Lambda = 1.1 });
        Refused(photo with { Lambda = double.NaN });
        Refused(photo with { MeasuredSigns = ["form.rings"] });
        Refused(photo with { MeasuredSigns = ["size.huge"] });
        Refused(photo with { PriorShares = new Dictionary<string, double>() });
        Refused(photo with { Shares = [new() { VisualClass = "moss", Probability = 1 }] });
        Refused(photo with { Shares = [new() { VisualClass = "rings", Probability = 0.5 }] });
        Refused(photo with { Shares = [new() { VisualClass = "rings", Probability = double.NaN }] });

        static void Refused(PhotoEvidence photo) =>
            Assert.Throws<ArgumentException>(() => Known.Diagnostician.Diagnose(new PanelFacts(), photo));
    }
}
