using System.Text.RegularExpressions;
using CoatScan.Findings;

namespace CoatScan.DiagnosisTests;

public partial class ClaimTests
{
    [Theory]
    [InlineData("S24", DatesFit.Fits)]
    [InlineData("S51", DatesFit.DoesNotFit)]
    [InlineData("S47", DatesFit.CannotTell)]
    public void Diagnose_dates_fit_do_not_fit_or_cannot_be_told(string id, DatesFit expected)
    {
        PanelDiagnosis answer = Diagnose(id);
        Assert.Equal(expected, answer.Claim.Dates);
        Assert.NotEmpty(answer.Claim.DatesText);
        Assert.Equal(4, answer.Claim.Questions.Count);
        Assert.NotEmpty(answer.Claim.SignsOfAge);
    }

    [Fact]
    public void Diagnose_no_text_speaks_of_insurance_matters()
    {
        foreach (PanelCase panelCase in PanelCase.All)
        {
            PanelDiagnosis answer = Known.Diagnostician.Diagnose(panelCase.Facts, null);
            IEnumerable<string> texts =
            [
                answer.CustomerText,
                answer.Claim.DatesText,
                answer.Claim.SignsOfAge,
                .. answer.Claim.Questions,
                .. answer.VerdictReasons,
                .. answer.Cautions,
                .. answer.Timing.Fits,
                .. answer.Timing.DoesNotFit,
                .. answer.Parties.SelectMany(p => p.For.Concat(p.Against)),
                .. answer.Contradictions.SelectMany(c => new[] { c.Text, c.Consequence }),
                .. answer.HandOvers.SelectMany(h => new[] { h.Why, h.To }),
            ];
            Assert.All(texts, t => Assert.DoesNotMatch(Insurance(), t));
        }
    }

    // S09: a repaint that peels at a tape line; the painter answers.
    [Fact]
    public void Diagnose_parties_say_what_speaks_for_and_against_them()
    {
        PanelDiagnosis answer = Diagnose("S09");
        PartyShare applicator = answer.Parties.Single(p => p.Party == "applicator");
        PartyShare maker = answer.Parties.Single(p => p.Party == "maker_process");
        Assert.Contains("this panel was repainted", applicator.For);
        Assert.Contains("this panel was repainted", maker.Against);
    }

    [Theory]
    [InlineData("orange_peel", "applicator", "finish.factory", false)]
    [InlineData("orange_peel", "maker_process", "film.over_1000_um_or_filler", false)]
    [InlineData("crack_alligator", "applicator", "film.over_1000_um_or_filler", true)]
    [InlineData("overspray", "applicator", "location.crosses_gaps_and_glass", false)]
    [InlineData("intercoat_peel", "applicator", "location.repaired_zone", true)]
    [InlineData("crack_alligator", "ageing", "finish.age_1_to_12_months", false)]
    public void Diagnose_who_painted_and_what_it_crosses_moves_the_party(string condition, string party, string evidence, bool raises)
    {
        double before = Share(condition, party);
        double after = Share(condition, party, evidence);
        Assert.True(raises ? after > before : after < before, $"{before} to {after}");
    }

    [Fact]
    public void Diagnose_each_doubt_has_its_consequence() => Assert.All(
        Known.Base.Contradictions,
        c => Assert.NotEmpty(c.Consequence));

    [Fact]
    public void Diagnose_destructive_tests_ask_for_consent_and_harmless_ones_do_not() => Assert.All(
        PanelCase.All.SelectMany(c => Known.Diagnostician.Diagnose(c.Facts, null).NextTests),
        t => Assert.Equal(t.Invasiveness >= 2, t.Consent.Contains("consent", StringComparison.Ordinal)));

    [GeneratedRegex(@"\b(fraud\w*|liab\w*|coverage|covered|insured|policy|premium|deny|denial|covers? of the policy)\b", RegexOptions.IgnoreCase)]
    private static partial Regex Insurance();

    private static PanelDiagnosis Diagnose(string id) =>
        Known.Diagnostician.Diagnose(PanelCase.All.Single(c => c.Id == id).Facts, null);

    // The party's share in the case of that condition, without what the case says of the film, of origin and of place.
    private static double Share(string condition, string party, params string[] evidence)
    {
        string[] told = ["film", "finish", "location"];
        PanelFacts facts = PanelCase.All.First(c => c.Expect.TopCondition == condition).Facts;
        PanelDiagnosis answer = Known.Diagnose(
            [.. facts.Evidence.Where(id => !told.Contains(Known.Base.Evidence[id].Group) && !evidence.Contains(id)), .. evidence]);
        Assert.Equal(condition, answer.Conditions[0].Condition);
        return answer.Parties.Single(p => p.Party == party).Probability;
    }
}
