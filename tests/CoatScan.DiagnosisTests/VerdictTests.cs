using CoatScan.Findings;

namespace CoatScan.DiagnosisTests;

/// <summary>The verdict rule, checked from outside: by ranking again with every outcome that a test could have.</summary>
public class VerdictTests
{
    // Of every kind, so that the check costs seconds and not minutes.
    private static readonly string[] Checked = ["S01", "S05", "S12", "S17", "S24", "S30", "S44", "S47", "S50", "S53", "S59", "S60"];

    public static TheoryData<string> CheckedCases => [.. Checked];

    /// <summary>
    /// Conclusive means that no test still worth doing could change what is decided. The gain is worked out here from whole
    /// diagnoses with each outcome added, not from the product's own tables of outcomes.
    /// </summary>
    [Theory]
    [MemberData(nameof(CheckedCases))]
    public void Diagnose_verdict_is_open_exactly_when_a_test_is_worth_asking_or_the_lead_is_small(string id)
    {
        PanelFacts facts = PanelCase.All.Single(c => c.Id == id).Facts;
        PanelDiagnosis answer = Known.Diagnostician.Diagnose(facts, null);
        StatusLimits limits = Known.Base.Ranking.Status;
        bool leads = answer.Conditions[0].Probability >= limits.ConditionMinShare
            && answer.Conditions[0].Probability >= limits.ConditionMinRatio * answer.Conditions[1].Probability;
        bool worth = Known.Base.Tests.Values
            .Where(t => t.Outcomes.Count > 0 && !answer.Evidence.Any(e => t.Outcomes.Contains(e.Id)))
            .Any(t => DecisionGain(answer, t) is (var gain, true) && gain >= limits.DecisionPrice * Cost(t));
        Assert.Equal(!leads || worth, answer.Verdict is not (Verdict.Conclusive or Verdict.Sound));
    }

    [Fact]
    public void Diagnose_inconclusive_cases_leave_different_actions_open()
    {
        foreach (PanelCase panelCase in PanelCase.All)
        {
            PanelDiagnosis answer = Known.Diagnostician.Diagnose(panelCase.Facts, null);
            if (answer.Verdict == Verdict.Inconclusive)
            {
                ConditionEntry first = Known.Base.Condition(answer.Conditions[0].Condition);
                ConditionEntry second = Known.Base.Condition(answer.Conditions[1].Condition);
                Assert.True(
                    Action(first) != Action(second) || Forbids(first, second) || Forbids(second, first)
                    || answer.VerdictReasons.Any(r => r.StartsWith("No single action", StringComparison.Ordinal)),
                    panelCase.Id);
            }
        }
    }

    // A missing form sign does not block what a color sign and the story of the finish decide.
    [Theory]
    [InlineData("bronzing", "color.bronze_sheen", "relief.flat", "finish.single_stage_2k", "finish.bleeding_or_organic_color", "location.upper_faces")]
    [InlineData("color_mismatch", "color.differs_from_neighbor", "location.one_panel", "measured.delta_e_over_2", "finish.repaint", "location.stops_at_mask_line")]
    [InlineData("blush", "color.milky_haze", "gloss.low", "finish.lacquer", "spraying.humid", "finish.age_under_1_month", "test.warmth.shrinks")]
    public void Diagnose_without_a_form_sign_can_be_conclusive(string condition, params string[] evidence)
    {
        PanelDiagnosis answer = Known.Diagnose(evidence);
        Assert.Equal(condition, answer.Conditions[0].Condition);
        Assert.Equal(Verdict.Conclusive, answer.Verdict);
    }

    // A polish trial could rule out fisheyes here; but nobody takes a thin color coat for fisheyes.
    [Fact]
    public void Diagnose_tail_of_the_ranking_holds_up_no_verdict() => Assert.Equal(
        Verdict.Conclusive,
        Known.Diagnose("color.undercoat_shows_through", "finish.repaint", "spraying.thin_coats", "film.under_80_um").Verdict);

    [Fact]
    public void Diagnose_story_without_anything_seen_is_never_conclusive()
    {
        PanelDiagnosis answer = Known.Diagnose(
            "finish.repaint", "finish.age_under_1_month", "spraying.heavy_coats", "spraying.cold", "spraying.humid",
            "spraying.gun_close_or_slow", "history.at_delivery");
        Assert.Equal(Verdict.Inconclusive, answer.Verdict);
    }

    [Fact]
    public void Diagnose_open_look_alike_that_changes_nothing_is_conclusive_but_spends_no_film()
    {
        PanelDiagnosis answer = Known.Diagnostician.Diagnose(PanelCase.All.Single(c => c.Id == "S60").Facts, null);
        Assert.Equal(Verdict.Conclusive, answer.Verdict);
        Assert.Equal(["micro_blistering", "fisheye"], answer.LookAlikes.Select(l => l.Other));
        Assert.All(answer.Remedy.Steps, s => Assert.False(Known.Base.Operations[s.Operation].SpendsFilm));
        Assert.Contains(answer.Remedy.MustNot, m => m is { Operation: "sand_sound", Scope: "now" });
        Assert.Contains("neither the first step nor who answers", Assert.Single(answer.NextTests).Reason, StringComparison.Ordinal);
    }

    [Fact]
    public void Diagnose_two_conditions_at_once_names_both_and_plans_the_deepest_first()
    {
        PanelDiagnosis answer = Known.Diagnostician.Diagnose(PanelCase.All.Single(c => c.Id == "S58").Facts, null);
        Assert.Equal("crack_alligator", answer.Conditions[0].Condition);
        Assert.Equal(["chalking"], answer.Beside);
        Assert.Equal(Verdict.Conclusive, answer.Verdict);
        Assert.Equal("none_monitor", answer.Remedy.Steps[0].Operation);
        Assert.Contains(answer.Remedy.Steps, s => s is { Operation: "wash", Condition: "chalking" });
        Assert.DoesNotContain(answer.Remedy.Steps, s => s.Operation is "hand_polish" or "machine_polish");
        Assert.Equal(answer.Remedy.Steps.Count, answer.Remedy.Steps.Select(s => s.Operation).Distinct().Count());
        Assert.Contains(answer.Causes, c => c.Condition == "chalking");
    }

    [Fact]
    public void Diagnose_rust_beside_swirls_starts_from_the_rust()
    {
        PanelDiagnosis answer = Known.Diagnose(
            "form.swirl_lines", "relief.flat", "size.whole_area", "care.brush_wash", "finish.dark", "test.polish_spot.restores",
            "location.whole_vehicle", "test.prick.rust_below");
        Assert.Equal("swirl", answer.Conditions[0].Condition);
        Assert.Equal("rust_underfilm", answer.Beside[0]);
        Assert.Equal("rust_underfilm", answer.Remedy.Steps[0].Condition);
    }

    [Fact]
    public void Diagnose_of_the_cases_only_the_one_of_two_conditions_has_a_second() => Assert.Equal(
        ["S58"],
        PanelCase.All.Where(c => Known.Diagnostician.Diagnose(c.Facts, null).Beside.Count > 0).Select(c => c.Id));

    [Fact]
    public void Diagnose_look_alikes_are_no_second_condition() =>
        Assert.Empty(Known.Diagnostician.Diagnose(PanelCase.All.Single(c => c.Id == "S54").Facts, null).Beside);

    private static double Cost(TestEntry test) =>
        1 + (Known.Base.Ranking.NextTests.MinuteCost * test.Minutes)
        + (Known.Base.Ranking.NextTests.InvasivenessCost * test.Invasiveness);

    private static (string Family, string Step) Action(ConditionEntry condition) => (
        condition.Family,
        condition.Ladder.FirstOrDefault(s => !Known.Base.Operations[s.Operation].Harmless)?.Operation ?? condition.Ladder[0].Operation);

    private static bool Forbids(ConditionEntry one, ConditionEntry other) =>
        one.MustNot.Any(m => m.Scope == "always" && other.Ladder.Any(s => s.Operation == m.Operation));

    // The gain, and whether a look-alike of the leading condition that decides otherwise leads after some outcome.
    private static (double Gain, bool Rival) DecisionGain(PanelDiagnosis now, TestEntry test)
    {
        Dictionary<string, (string, string, string)> decisions = now.Conditions.ToDictionary(
            c => c.Condition,
            c => Decision(c.Condition, [.. now.Evidence.Select(e => e.Id)]));
        Dictionary<string, double> prior = now.Conditions.ToDictionary(c => c.Condition, c => c.Probability);
        Dictionary<string, double[]> factors = prior.Keys.ToDictionary(c => c, c => test.Outcomes.Select(o => Factor(c, o)).ToArray());
        string leading = now.Conditions[0].Condition;
        (double right, bool rival) = (0, false);
        for (int o = 0; o < test.Outcomes.Count; o++)
        {
            double chance = prior.Sum(p => p.Value * factors[p.Key][o] / Total(p.Key));
            IEnumerable<(string Condition, double Share)> after = prior.Select(p => (p.Key, p.Value * factors[p.Key][o] / Total(p.Key) / chance));
            right += chance * Best(after);
            rival |= IsRival(after.MaxBy(s => s.Share).Condition);
        }

        if (test.MaySayNothing)
        {
            double chance = prior.Sum(p => p.Value / Total(p.Key));
            IEnumerable<(string Condition, double Share)> after = prior.Select(p => (p.Key, p.Value / Total(p.Key) / chance));
            right += chance * Best(after);
            rival |= IsRival(after.MaxBy(s => s.Share).Condition);
        }

        return (right - Best(prior.Select(p => (p.Key, p.Value))), rival);

        bool IsRival(string condition) => decisions[condition] != decisions[leading]
            && (Known.Base.Condition(condition).LookAlikes.Any(l => l.Id == leading)
                || Known.Base.Condition(leading).LookAlikes.Any(l => l.Id == condition)
                || Known.Base.Deciders.Any(d => (d.First, d.Second) == (leading, condition) || (d.Second, d.First) == (leading, condition)));

        double Total(string condition) => factors[condition].Sum() + (test.MaySayNothing ? 1 : 0);

        double Best(IEnumerable<(string Condition, double Share)> shares) =>
            shares.GroupBy(s => decisions[s.Condition]).Max(g => g.Sum(s => s.Share));

        // What the product says that the outcome does to a condition, read from its own explanation.
        double Factor(string condition, string outcome) => Math.Exp(With(outcome)
            .Single(c => c.Condition == condition)
            .Evidence.FirstOrDefault(e => e.Id == outcome)?.WeightLog ?? 0);

        IReadOnlyList<ConditionShare> With(string outcome) => Ranked.TryGetValue(outcome, out IReadOnlyList<ConditionShare>? ranked)
            ? ranked
            : Ranked[outcome] = Known.Diagnose(outcome).Conditions;
    }

    private static readonly Dictionary<string, IReadOnlyList<ConditionShare>> Ranked = [];

    private static (string Family, string FirstStep, string Party) Decision(string condition, string[] evidence)
    {
        ConditionEntry entry = Known.Base.Condition(condition);
        IEnumerable<(string Party, double Score)> scores = entry.Causes.Select(c => (c.Party, c.BaseWeight * evidence.Aggregate(
            1.0,
            (product, id) => product * FactorOf(entry, c, id))));
        return (
            entry.Family,
            entry.Ladder[0].Operation,
            scores.GroupBy(s => s.Party)
                .OrderByDescending(g => g.Sum(s => s.Score))
                .ThenBy(g => g.Key, StringComparer.Ordinal)
                .First().Key);
    }

    private static double FactorOf(ConditionEntry condition, CauseEntry cause, string id)
    {
        RankingRules rules = Known.Base.Ranking;
        foreach ((LikelihoodClass likelihood, IReadOnlyList<string> ids) in cause.Evidence)
        {
            if (ids.Contains(id))
            {
                return rules.LikelihoodClasses[likelihood];
            }
        }

        CauseHint[] hints = [.. rules.CauseHints.Where(h => h.Evidence == id && h.HoldsFor(condition))];
        LikelihoodClass[] general =
        [
            .. hints.Where(h => h.Parties?.ContainsKey(cause.Party) == true).Select(h => h.Parties![cause.Party]),
            .. hints.Where(h => h.Onsets?.ContainsKey(cause.Onset) == true).Select(h => h.Onsets![cause.Onset]),
        ];
        return general.Length == 0 ? 1 : rules.LikelihoodClasses[general[0]];
    }
}
