using CoatScan.FunctionalTests.Infrastructure;
using CoatScan.V1;

namespace CoatScan.FunctionalTests.Server;

public sealed class RankCausesTests(SharedServer shared)
{
    [Fact]
    public async Task RankCauses_chalked_hood_is_conclusive_without_a_photo()
    {
        var finding = await shared.Server.Findings.RankCausesAsync(new RankCausesRequest
        {
            Facts = new PanelFacts
            {
                Evidence =
                {
                    "form.uniform_change", "relief.flat", "size.whole_area", "color.dusty_own_color", "gloss.low",
                    "location.upper_faces", "finish.single_stage_2k", "finish.factory", "finish.age_over_5_years",
                    "environment.kept_outdoors", "care.rarely_washed", "test.cloth_rub.powder", "test.polish_spot.restores",
                },
                Readings = new Readings { FilmUm = { 118, 125, 110 }, Gloss60 = 22 },
            },
        });

        Assert.Equal(Verdict.Conclusive, finding.Verdict);
        Assert.Equal("conditions/chalking", finding.Conditions[0].Condition);
        Assert.StartsWith("causes/chalking.", finding.Causes[0].Cause, StringComparison.Ordinal);
        Assert.Equal("ageing", finding.Parties[0].Party);
        Assert.Equal("wash", finding.Remedy.Steps[0].Operation);
        Assert.Contains(finding.Remedy.MustNot, item => item.Operation == "reclear");
        Assert.Contains(finding.Evidence, item => item.Id == "film.80_to_170_um_even" && item.Origin == "READING");
        Assert.Empty(finding.Photos);
    }

    [Fact]
    public async Task RankCauses_spots_without_a_test_stay_open_and_name_the_test()
    {
        var finding = await shared.Server.Findings.RankCausesAsync(new RankCausesRequest
        {
            Facts = new PanelFacts { Evidence = { "form.round_spots", "size.1_to_5_mm", "location.upper_faces" } },
        });

        Assert.Equal(Verdict.Inconclusive, finding.Verdict);
        Assert.NotEmpty(finding.LookAlikes);
        Assert.Contains(finding.NextTests, test => test.Test == "acid");
    }

    [Fact]
    public async Task RankCauses_answers_claim_film_map_dates_and_who_said_what()
    {
        var finding = await shared.Server.Findings.RankCausesAsync(new RankCausesRequest
        {
            Facts = new PanelFacts
            {
                Evidence =
                {
                    "form.wavy_texture", "relief.raised", "size.1_to_5_mm", "finish.basecoat_clearcoat", "finish.repaint",
                    "location.one_panel",
                },
                Statements = { new Statement { Evidence = "history.sudden", SaidBy = "owner" } },
                Readings = new Readings
                {
                    FilmUm = { 215, 220 },
                    FilmPanels = { new PanelFilm { Panel = "roof", FilmUm = { 110, 115 } } },
                },
                Panel = "hood",
                AppliedOn = "2026-05-01",
            },
            ValidateOnly = true,
        });

        Assert.Equal("conditions/orange_peel", finding.Conditions[0].Condition);
        Assert.Equal(["owner"], finding.Evidence.Single(item => item.Id == "history.sudden").SaidBy);
        Assert.Equal(["hood", "roof"], finding.FilmMap.Select(entry => entry.Panel));
        Assert.Equal(["REPAINT", "FACTORY"], finding.FilmMap.Select(entry => entry.FilmClass));
        Assert.All(finding.FilmMap, entry => Assert.True(entry.Uneven));
        Assert.Equal(215, finding.FilmBudget.LowUm);
        Assert.False(finding.FilmBudget.HasAllowanceUm);
        Assert.Equal("DOES_NOT_FIT", finding.Claim.Dates);
        Assert.Equal(4, finding.Claim.Questions.Count);
        Assert.Contains("this panel was repainted", finding.Parties[0].SpeaksFor);
        Assert.All(finding.Remedy.Steps.Where(step => step.NotBefore.Length > 0), step =>
            Assert.Matches("^2026-0[5-8]-[0-9]{2}$", step.NotBefore));
        Assert.Contains(finding.Remedy.Steps, step => step.NotBefore.Length > 0);
        Assert.Contains(finding.HandOvers, handOver => handOver.Matter == "isocyanates");
    }

    [Theory]
    [InlineData("")]
    [InlineData("facts")]
    public async Task RankCauses_nothing_said_is_refused(string facts)
    {
        var request = new RankCausesRequest { Facts = facts.Length > 0 ? new PanelFacts { Panel = "hood" } : null };

        var status = await Errors.OfAsync(() => shared.Server.Findings.RankCausesAsync(request));

        Assert.Equal("FIELD_INVALID", status.Info().Reason);
        Assert.Equal("facts.evidence", status.Field());
    }
}
