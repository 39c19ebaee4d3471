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
}
