using CoatScan.Findings;

namespace CoatScan.DiagnosisTests;

public class RemedyTests
{
    private static readonly string[] Abrasive = ["hand_polish", "machine_polish", "compound", "denib", "wet_sand"];

    // An acid etch in a factory clear: its ladder polishes by hand, by machine and sands before it paints.
    private static readonly PanelFacts Etched = Case("S16").Facts with { Readings = Readings.None };

    [Theory]
    [InlineData(60, "hand_polish machine_polish wet_sand", 0.0)]
    [InlineData(80, "hand_polish machine_polish wet_sand", 0.0)]
    [InlineData(81, "wet_sand", 2.0)]
    [InlineData(100, "wet_sand", 2.0)]
    [InlineData(120, "wet_sand", 3.0)]
    [InlineData(121, "", 5.0)]
    [InlineData(200, "", null)]
    [InlineData(301, "wet_sand", null)]
    public void Diagnose_film_budget_rules_steps_out(double um, string ruledOut, double? allowanceUm)
    {
        string[] expected = ruledOut.Split(' ', StringSplitOptions.RemoveEmptyEntries);
        PanelDiagnosis answer = Diagnose(Etched with { Readings = new() { FilmUm = [um, um] } });
        Assert.Equal("acid_etch", answer.Conditions[0].Condition);
        Assert.Equal(Verdict.Conclusive, answer.Verdict);
        Assert.Equal(allowanceUm, answer.FilmBudget!.AllowanceUm);
        Assert.Equal(
            new[] { "hand_polish", "machine_polish", "wet_sand" }.Except(expected),
            answer.Remedy.Steps.Select(s => s.Operation).Intersect(Abrasive));
        Assert.All(expected, o => Assert.Contains(answer.Remedy.MustNot, m => m.Operation == o && m.Why.StartsWith("film budget", StringComparison.Ordinal)));
    }

    [Fact]
    public void Diagnose_film_budget_goes_by_the_thinnest_place_and_several_finishes_by_the_thickest()
    {
        Assert.Equal(0, Diagnose(Etched with { Readings = new() { FilmUm = [75, 160] } }).FilmBudget!.AllowanceUm);
        Assert.StartsWith("over 300 um", Diagnose(Etched with { Readings = new() { FilmUm = [75, 301] } }).FilmBudget!.Text, StringComparison.Ordinal);
        Assert.Null(Diagnose(Etched).FilmBudget);
    }

    // Depth of the fault and 1 um have to stay within the allowance, 5 um here.
    [Theory]
    [InlineData(4, true)]
    [InlineData(4.1, false)]
    public void Diagnose_fault_deeper_than_the_budget_goes_straight_to_paint(double depthUm, bool polishes)
    {
        PanelDiagnosis answer = Diagnose(Etched with { Readings = new() { FilmUm = [150], FaultDepthUm = depthUm } });
        Assert.Equal(polishes, answer.Remedy.Steps.Any(s => Abrasive.Contains(s.Operation)));
        Assert.Contains(answer.Remedy.Steps, s => s.Operation == "panel_refinish");
        Assert.Equal(depthUm, answer.FilmBudget!.FaultDepthUm);
    }

    [Theory]
    [InlineData("finish.matte")]
    [InlineData("finish.protective_film")]
    public void Diagnose_matte_or_filmed_finish_is_never_polished(string finish)
    {
        foreach (PanelCase panelCase in PanelCase.All)
        {
            PanelDiagnosis answer = Diagnose(panelCase.Facts with { Evidence = [.. panelCase.Facts.Evidence, finish] });
            Assert.DoesNotContain(answer.Remedy.Steps, s => Abrasive.Contains(s.Operation));
        }

        FinishRule rule = Known.Base.Finishes.Single(f => f.Evidence == finish);
        PanelDiagnosis etched = Diagnose(Etched with { Evidence = [.. Etched.Evidence, finish] });
        Assert.Contains(etched.Remedy.MustNot, m => m.Operation == "machine_polish" && m.Why.StartsWith(rule.Why, StringComparison.Ordinal));
        Assert.Contains(rule.Says, etched.Cautions);
        Assert.Contains(rule.Care[0], etched.CareAdvice);
    }

    [Fact]
    public void Diagnose_protective_film_keeps_the_verdict_provisional()
    {
        Assert.Equal(Verdict.Conclusive, Diagnose(Etched).Verdict);
        PanelDiagnosis filmed = Diagnose(Etched with { Evidence = [.. Etched.Evidence, "finish.protective_film"] });
        Assert.Equal(Verdict.Provisional, filmed.Verdict);
        Assert.Contains(filmed.VerdictReasons, r => r.Contains("protective film", StringComparison.Ordinal));
    }

    [Fact]
    public void Diagnose_wrap_is_no_paint()
    {
        PanelDiagnosis answer = Diagnose(Etched with { Evidence = [.. Etched.Evidence, "finish.wrap"] });
        Assert.Equal(Verdict.NotAssessable, answer.Verdict);
        Assert.Empty(answer.Conditions);
        Assert.Empty(answer.Remedy.Steps);
        Assert.Contains("film, not paint", Assert.Single(answer.VerdictReasons), StringComparison.Ordinal);
    }

    [Fact]
    public void Diagnose_plastic_is_not_stripped()
    {
        PanelFacts cracked = Case("S36").Facts;
        Assert.Contains(Diagnose(cracked).Remedy.Steps, s => s.Operation == "strip");
        PanelDiagnosis plastic = Diagnose(cracked with { Evidence = [.. cracked.Evidence, "substrate.plastic"] });
        Assert.DoesNotContain(plastic.Remedy.Steps, s => s.Operation == "strip");
        Assert.Contains(plastic.Remedy.MustNot, m => m is { Operation: "strip", Scope: "until_met" });
        Assert.Contains(plastic.HandOvers, h => h.Matter == "unknown_plastic");
    }

    // S30: two-component clear; S05: lacquer; S33: synthetic enamel.
    [Theory]
    [InlineData("S30", "machine_polish", 2, 6)]
    [InlineData("S05", "hand_polish", 3, 29)]
    [InlineData("S33", "denib", 3, 22)]
    public void Diagnose_application_date_turns_waits_into_dates(string id, string operation, int notBefore, int better)
    {
        PanelFacts facts = Case(id).Facts with { Readings = Readings.None };
        RemedyStep step = Diagnose(facts with { AppliedOn = new(2026, 5, 1) }).Remedy.Steps.Single(s => s.Operation == operation);
        Assert.Equal(new DateOnly(2026, 5, notBefore), step.NotBefore);
        Assert.Equal(new DateOnly(2026, 5, better), step.BetterFrom);
        Assert.All(Diagnose(facts).Remedy.Steps, s => Assert.Null(s.NotBefore));
    }

    [Fact]
    public void Diagnose_fresh_finish_without_a_date_gives_the_wait_in_words() =>
        Assert.Contains(
            "not before 1 to 2 days",
            Diagnose(Case("S05").Facts).Remedy.Steps.Single(s => s.Operation == "hand_polish").Wait,
            StringComparison.Ordinal);

    [Fact]
    public void Diagnose_steps_carry_condition_materials_and_spend()
    {
        PanelDiagnosis answer = Diagnose(Case("S01").Facts);
        RemedyStep polish = answer.Remedy.Steps.Single(s => s.Operation == "machine_polish");
        Assert.Equal("chalking", polish.Condition);
        Assert.Contains("20-40 ml", polish.Materials, StringComparison.Ordinal);
        Assert.Equal(new FilmSpend(0.5, 3), polish.SpendsUm);
        Assert.Equal("whole vehicle, washed and decontaminated", answer.Remedy.Steps[0].HoursFor);
    }

    [Fact]
    public void Diagnose_ladders_climb_from_the_least_invasive_and_every_step_says_when_to_stop() =>
        Assert.All(Known.Base.Conditions, c =>
        {
            Assert.All(c.Ladder, s => Assert.NotEmpty(s.StopIf));
            Assert.All(c.MustNot, m => Assert.NotEmpty(m.Why));
        });

    [Theory]
    [InlineData("front bumper cover", "sensors", true)]
    [InlineData("hood", "sensors", false)]
    [InlineData("LF front door", "airbags", true)]
    [InlineData("hood", "isocyanates", true)]
    public void Diagnose_hand_over_depends_on_panel_and_steps(string panel, string matter, bool expected) =>
        Assert.Equal(expected, Diagnose(Case("S36").Facts with { Panel = panel }).HandOvers.Any(h => h.Matter == matter));

    [Fact]
    public void Diagnose_rust_and_high_voltage_are_handed_over()
    {
        PanelFacts rusty = Case("S23").Facts;
        Assert.Contains(Diagnose(rusty).HandOvers, h => h.Matter == "structure");
        Assert.DoesNotContain(Diagnose(rusty).HandOvers, h => h.Matter == "high_voltage");
        PanelDiagnosis electric = Diagnose(rusty with { Evidence = [.. rusty.Evidence, "vehicle.high_voltage"] });
        Assert.Contains(electric.HandOvers, h => h.Matter == "high_voltage");
    }

    [Fact]
    public void Diagnose_no_step_is_also_forbidden() => Assert.All(PanelCase.All, c =>
    {
        PanelDiagnosis answer = Diagnose(c.Facts);
        Assert.Empty(answer.Remedy.Steps.Select(s => s.Operation).Intersect(answer.Remedy.MustNot.Select(m => m.Operation)));
    });

    // Acid etch: clear over an unsanded etch prints through, so clearing the panel waits until the etch is sanded.
    [Fact]
    public void Diagnose_step_that_waits_for_an_obstacle_stands_with_the_obstacle()
    {
        Remedy remedy = Diagnose(Etched).Remedy;
        Assert.DoesNotContain(remedy.Steps, s => s.Operation == "reclear");
        MustNot reclear = remedy.MustNot.Single(m => m.Operation == "reclear");
        Assert.Equal("until_met", reclear.Scope);
        Assert.Contains("once that is cleared", reclear.Why, StringComparison.Ordinal);
    }

    private static PanelCase Case(string id) => PanelCase.All.Single(c => c.Id == id);

    private static PanelDiagnosis Diagnose(PanelFacts facts) => Known.Diagnostician.Diagnose(facts, null);
}
