using CoatScan.Findings;

namespace CoatScan.DiagnosisTests;

/// <summary>
/// The 60 invented cases of our trade notes. The tables were tuned on them by the same author, so the figures show
/// consistency with the published rules, not accuracy in the field.
/// </summary>
public class CasesTests(ITestOutputHelper output)
{
    private static readonly IReadOnlyList<(PanelCase Case, PanelDiagnosis Answer)> Answers =
        [.. PanelCase.All.Select(c => (c, Known.Diagnostician.Diagnose(c.Facts, null)))];

    private static IEnumerable<(PanelCase Case, PanelDiagnosis Answer)> Definite =>
        Answers.Where(a => a.Case.Expect.ConditionStatus == "conclusive");

    private static IEnumerable<(PanelCase Case, PanelDiagnosis Answer)> Open =>
        Answers.Where(a => a.Case.Expect.ConditionStatus == "inconclusive");

    [Fact]
    public void Cases_are_sixty_of_which_ten_are_open()
    {
        Assert.Equal(60, Answers.Count);
        Assert.Equal(10, Open.Count());
    }

    [Fact]
    public void Diagnose_definite_cases_names_the_condition() =>
        All("condition", Definite, a => a.Answer.Conditions[0].Condition == a.Case.Expect.TopCondition);

    // The rule of decisions, stated before it was run: 58 of 60. S55 (blush or dieback) and S60 (popping or blisters) are
    // expected to be open, but no test could change family, first step or party there, so they are decided by the rule; the
    // look-alike stays named, its test is asked for and nothing that spends film is recommended (see below). The gates
    // before this rule reached 60 of 60 here and 60 of 80 on an exam of another author: they were tuned on these cases.
    [Fact]
    public void Diagnose_all_cases_gives_the_status()
    {
        string[] wrong =
        [
            .. Answers
                .Where(a => IsDecided(a.Answer) != (a.Case.Expect.ConditionStatus == "conclusive"))
                .Select(a => a.Case.Id),
        ];
        output.WriteLine($"status: {Answers.Count - wrong.Length}/{Answers.Count}; provisional: "
            + string.Join(" ", Answers.Where(a => a.Answer.Verdict == Verdict.Provisional).Select(a => a.Case.Id)));
        Assert.True(wrong.Length <= 2, string.Join(" ", wrong));
        Assert.All(
            Answers.Where(a => wrong.Contains(a.Case.Id)),
            a =>
            {
                Assert.NotEmpty(a.Answer.LookAlikes);
                Assert.Contains(a.Answer.NextTests[0].Test, a.Answer.LookAlikes.SelectMany(l => l.DecidingTests));
            });
    }

    [Fact]
    public void Diagnose_definite_cases_names_an_expected_cause() =>
        All("cause", Definite.Where(a => a.Case.Expect.TopCauses.Length > 0), a =>
            a.Case.Expect.TopCauses.Contains(a.Answer.Causes[0].Cause));

    [Fact]
    public void Diagnose_definite_cases_names_the_party() =>
        All("party", Definite.Where(a => a.Case.Expect.Party is not null), a =>
            a.Answer.Parties[0].Party == a.Case.Expect.Party);

    // "probable" must be conclusive, "inconclusive" must not; "shared" may be either.
    [Fact]
    public void Diagnose_all_cases_gives_the_party_status() =>
        All("party status", Answers.Where(a => a.Case.Expect.CauseStatus != "shared" && !(IsDecided(a.Answer) && Open.Contains(a))), a =>
            (a.Answer.PartyVerdict == Verdict.Conclusive) == (a.Case.Expect.CauseStatus == "probable"));

    [Fact]
    public void Diagnose_all_cases_starts_with_the_expected_step() =>
        All("first step", Answers, a => a.Answer.Remedy.Steps[0].Operation == a.Case.Expect.FirstRemedyStep);

    [Fact]
    public void Diagnose_all_cases_never_starts_with_a_forbidden_step() =>
        All("forbidden now", Answers, a => !a.Case.Expect.MustNotNow.Contains(a.Answer.Remedy.Steps[0].Operation));

    [Fact]
    public void Diagnose_all_cases_recommends_no_step_that_is_wrong_at_this_stage() =>
        All("forbidden now, all steps", Answers, a =>
            !a.Answer.Remedy.Steps.Select(s => s.Operation).Intersect(a.Case.Expect.MustNotNow).Any());

    [Fact]
    public void Diagnose_all_cases_recommends_no_step_that_is_wrong_at_any_stage() =>
        All("forbidden ever", Answers, a =>
            !a.Answer.Remedy.Steps.Select(s => s.Operation).Intersect(a.Case.Expect.MustNotEver).Any());

    [Fact]
    public void Diagnose_definite_cases_names_what_is_wrong_at_any_stage() =>
        All("must not ever named", Definite, a =>
            a.Case.Expect.MustNotEver.All(a.Answer.Remedy.MustNot.Select(m => m.Operation).Contains));

    [Fact]
    public void Diagnose_open_cases_forbids_for_now_what_the_case_forbids() =>
        All("must not now named", Open, a =>
            a.Case.Expect.MustNotNow.All(a.Answer.Remedy.MustNot.Select(m => m.Operation).Contains));

    [Fact]
    public void Diagnose_open_cases_recommends_only_harmless_steps() =>
        All("harmless", Open, a => a.Answer.Remedy.Steps.All(s => Known.Base.Operations[s.Operation].Harmless));

    // Reached when written: 11 of 11 and 31 of 37; the missing ones are tests of S55 and S60 beside the one that decides.
    [Fact]
    public void Diagnose_cases_that_ask_for_tests_names_them()
    {
        (string[] Asked, string[] Named)[] asking =
        [
            .. Answers
                .Where(a => a.Case.Expect.AskTests.Length > 0)
                .Select(a => (a.Case.Expect.AskTests, a.Answer.NextTests.Select(t => t.Test).ToArray())),
        ];
        int early = asking.Count(a => a.Named.Take(3).Intersect(a.Asked).Any());
        int asked = asking.Sum(a => a.Asked.Length);
        int named = asking.Sum(a => a.Asked.Intersect(a.Named).Count());
        output.WriteLine($"one asked test among the first three: {early}/{asking.Length}; asked tests named: {named}/{asked}");
        Assert.True(early >= 11, $"{early} of {asking.Length}");
        Assert.True(named >= 31, $"{named} of {asked}");
    }

    [Fact]
    public void Diagnose_contradictory_cases_reports_the_contradiction()
    {
        Assert.Contains(Answers.Single(a => a.Case.Id == "S51").Answer.Contradictions, c => c.Doubts == "date");
        Assert.Contains(Answers.Single(a => a.Case.Id == "S52").Answer.Contradictions, c => c.Doubts == "origin");
    }

    // Our trade notes measured 642 of 644 with a reference scorer written in another language; this scorer agrees.
    [Fact]
    public void Diagnose_definite_cases_keep_the_condition_when_one_piece_is_dropped()
    {
        (int kept, int all) = (0, 0);
        foreach (PanelCase panelCase in Definite.Select(a => a.Case))
        {
            foreach (string dropped in panelCase.Facts.Evidence)
            {
                PanelFacts fewer = panelCase.Facts with { Evidence = [.. panelCase.Facts.Evidence.Where(e => e != dropped)] };
                all++;
                kept += Known.Diagnostician.Diagnose(fewer, null).Conditions[0].Condition == panelCase.Expect.TopCondition ? 1 : 0;
            }
        }

        output.WriteLine($"kept: {kept}/{all}");
        Assert.Equal((642, 644), (kept, all));
    }

    // Our trade notes measured 50 of 50 with a reference scorer written in another language.
    [Fact]
    public void Diagnose_definite_cases_by_visible_signs_alone_name_the_condition()
    {
        PanelCase[] definite = [.. Definite.Select(a => a.Case)];
        int right = definite.Count(c =>
            Known.Diagnose(c.Signs).Conditions[0].Condition == c.Expect.TopCondition);
        output.WriteLine($"right: {right}/{definite.Length}");
        Assert.Equal(definite.Length, right);
    }

    private static bool IsDecided(PanelDiagnosis answer) => answer.Verdict is Verdict.Conclusive or Verdict.Sound;

    private void All(
        string what,
        IEnumerable<(PanelCase Case, PanelDiagnosis Answer)> cases,
        Func<(PanelCase Case, PanelDiagnosis Answer), bool> right)
    {
        (PanelCase Case, PanelDiagnosis Answer)[] all = [.. cases];
        string[] wrong =
        [
            .. all.Where(a => !right(a)).Select(a =>
                $"{a.Case.Id}: {a.Answer.Verdict} {a.Answer.Conditions[0].Condition} {a.Answer.Parties[0].Party} "
                + $"{a.Answer.PartyVerdict}; {string.Join(" ", a.Answer.Remedy.Steps.Select(s => s.Operation))}; "
                + $"not {string.Join(" ", a.Answer.Remedy.MustNot.Select(m => m.Operation))}; "
                + string.Join(" ", a.Answer.NextTests.Select(t => t.Test))),
        ];
        output.WriteLine($"{what}: {all.Length - wrong.Length}/{all.Length}");
        Assert.True(wrong.Length == 0, string.Join("\n", wrong));
    }
}
