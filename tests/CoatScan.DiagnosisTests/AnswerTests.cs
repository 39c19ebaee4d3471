using CoatScan.Findings;

namespace CoatScan.DiagnosisTests;

public class AnswerTests
{
    private static PanelDiagnosis Case(string id) =>
        Known.Diagnostician.Diagnose(PanelCase.All.Single(c => c.Id == id).Facts, null);

    [Fact]
    public void Diagnose_nothing_known_is_inconclusive_and_asks_for_photos_and_history()
    {
        PanelDiagnosis answer = Known.Diagnose();
        Assert.Equal(Verdict.Inconclusive, answer.Verdict);
        Assert.Contains(answer.VerdictReasons, r => r.StartsWith("Nothing was seen or tested", StringComparison.Ordinal));
        Assert.Superset(
            new HashSet<string> { "photo_raking", "photo_scale", "history" },
            answer.NextTests.Select(t => t.Test).ToHashSet());
        Assert.Equal(TimingClass.CannotTell, answer.Timing.Class);
    }

    [Fact]
    public void Diagnose_open_condition_names_deciding_tests_first_and_never_twice()
    {
        PanelDiagnosis answer = Case("S50");
        LookAlike pair = answer.LookAlikes[0];
        Assert.Equal(("blistering", "rust_underfilm"), (pair.Condition, pair.Other));
        Assert.Contains(answer.NextTests[0].Test, pair.DecidingTests);
        Assert.Equal(answer.NextTests.Count, answer.NextTests.Select(t => t.Test).Distinct().Count());
        Assert.All(answer.NextTests, t => Assert.True(t.GainBits is null or >= 0));
        Assert.All(answer.NextTests, t => Assert.NotEmpty(t.How));
    }

    [Fact]
    public void Diagnose_tests_that_were_made_are_not_asked_again()
    {
        PanelDiagnosis answer = Known.Diagnose("form.round_spots", "test.mild_acid.no_effect", "test.wash.no_effect");
        Assert.DoesNotContain(answer.NextTests, t => t.Test is "acid" or "wash");
    }

    [Fact]
    public void Diagnose_gain_is_at_most_what_is_open()
    {
        PanelDiagnosis answer = Case("S47");
        double openBits = -answer.Conditions.Where(c => c.Probability > 0).Sum(c => c.Probability * Math.Log2(c.Probability));
        Assert.All(answer.NextTests.Where(t => t.GainBits is not null), t => Assert.InRange(t.GainBits!.Value, 0, openBits));
    }

    [Fact]
    public void Diagnose_contradicted_origin_leaves_the_party_open_and_asks_again()
    {
        PanelDiagnosis answer = Case("S52");
        Assert.Equal(Verdict.Conclusive, answer.Verdict);
        Assert.Equal(Verdict.Inconclusive, answer.PartyVerdict);
        Assert.Equal(["film", "history"], answer.NextTests.Select(t => t.Test).Where(t => t is "film" or "history"));
        Assert.Contains(answer.VerdictReasons, r => r.Contains("origin", StringComparison.Ordinal));
    }

    [Fact]
    public void Diagnose_decided_case_asks_for_nothing() => Assert.Empty(Case("S01").NextTests);

    [Fact]
    public void Diagnose_decided_case_gives_the_whole_ladder_with_hours()
    {
        Remedy remedy = Case("S01").Remedy;
        Assert.Equal(
            ["wash", "hand_polish", "machine_polish", "protect", "panel_refinish"],
            remedy.Steps.Select(s => s.Operation));
        Assert.Equal(new HourRange(0.4, 1.0), remedy.Steps[2].Hours);
        Assert.Null(remedy.Steps[3].Hours);
        Assert.Contains(remedy.MustNot, m => m is { Operation: "reclear", Scope: "always" });
    }

    [Fact]
    public void Diagnose_open_case_forbids_what_spends_film_for_now() => Assert.All(Case("S47").Remedy.MustNot, m =>
    {
        Assert.Equal("now", m.Scope);
        Assert.True(Known.Base.Operations[m.Operation].SpendsFilm);
    });

    [Fact]
    public void Diagnose_dates_that_do_not_fit_are_said_without_blame()
    {
        PanelDiagnosis answer = Case("S51");
        Assert.Equal(TimingClass.Gradual, answer.Timing.Class);
        Assert.Contains(answer.Timing.DoesNotFit, t => t.Contains("at once", StringComparison.Ordinal));
        Assert.Contains("rust under a film takes months", answer.Timing.DoesNotFit);
        Assert.DoesNotContain(answer.Timing.DoesNotFit, t => t.Contains("fraud", StringComparison.OrdinalIgnoreCase));
    }

    [Theory]
    [InlineData("S01", TimingClass.Gradual)]
    [InlineData("S24", TimingClass.Event)]
    [InlineData("S25", TimingClass.EventOrAccumulated)]
    [InlineData("S30", TimingClass.Workmanship)]
    [InlineData("S08", TimingClass.AgeingOrWorkmanship)]
    [InlineData("S46", TimingClass.CannotTell)]
    public void Diagnose_timing_class_follows_the_condition(string id, TimingClass expected) =>
        Assert.Equal(expected, Case(id).Timing.Class);

    [Fact]
    public void Diagnose_remedy_with_spraying_on_an_old_finish_warns_of_isocyanates_and_lead()
    {
        PanelDiagnosis answer = Case("S01");
        Assert.Contains(answer.Cautions, c => c.Contains("isocyanates", StringComparison.Ordinal));
        Assert.Contains(answer.Cautions, c => c.Contains("lead", StringComparison.Ordinal));
        Assert.Contains(answer.Cautions, c => c.Contains("product sheet", StringComparison.Ordinal));
        Assert.Contains(answer.Cautions, c => c.Contains("for people to decide", StringComparison.Ordinal));
    }

    [Fact]
    public void Diagnose_remedy_with_acid_warns_of_acid() =>
        Assert.Contains(Case("S13").Cautions, c => c.Contains("chlorine bleach", StringComparison.Ordinal));

    [Fact]
    public void Diagnose_sound_panel_is_sound_and_left_alone()
    {
        PanelDiagnosis answer = Case("S46");
        Assert.Equal(Verdict.Sound, answer.Verdict);
        Assert.Equal(["none_monitor"], answer.Remedy.Steps.Select(s => s.Operation));
        Assert.DoesNotContain(answer.Cautions, c => c.Contains("isocyanates", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("S01")]
    [InlineData("S46")]
    [InlineData("S47")]
    public void Diagnose_customer_text_says_what_is_seen_and_what_to_do(string id)
    {
        string text = Case(id).CustomerText;
        Assert.StartsWith("What we see: ", text, StringComparison.Ordinal);
        Assert.Contains("to do", text, StringComparison.Ordinal);
        Assert.Contains("When to look again", text, StringComparison.Ordinal);
        Assert.DoesNotContain("_", text, StringComparison.Ordinal);
        Assert.DoesNotContain("..", text, StringComparison.Ordinal);
    }

    [Fact]
    public void Diagnose_care_advice_has_prevention_only_where_the_condition_is_known()
    {
        Assert.Contains("regular wash and wax", Case("S01").CareAdvice);
        Assert.Equal(Known.Base.Care.General, Case("S47").CareAdvice);
        Assert.Contains(Known.Base.Care.FreshFinish[0], Known.Diagnose("finish.age_under_1_month").CareAdvice);
    }

    [Fact]
    public void Diagnose_all_texts_are_free_of_ids()
    {
        foreach (PanelCase panelCase in PanelCase.All)
        {
            PanelDiagnosis answer = Known.Diagnostician.Diagnose(panelCase.Facts, null);
            IEnumerable<string> texts =
            [
                answer.CustomerText,
                .. answer.VerdictReasons,
                .. answer.Cautions,
                .. answer.CareAdvice,
                .. answer.Timing.Fits,
                .. answer.Timing.DoesNotFit,
                .. answer.Remedy.Steps.SelectMany(s => new[] { s.Action, s.StopIf }),
                .. answer.Remedy.MustNot.Select(m => m.Why),
                .. answer.NextTests.SelectMany(t => new[] { t.How, t.Reason, t.Caution }),
            ];
            Assert.All(texts, t => Assert.DoesNotContain("_", t, StringComparison.Ordinal));
        }
    }
}
