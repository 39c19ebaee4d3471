using CoatScan.Cli.Json;

namespace CoatScan.FunctionalTests.CommandLine;

public sealed class RankCaseTests
{
    [Fact]
    public void Read_full_case_takes_every_field()
    {
        var (facts, error) = RankCase.Read(
            """
            {"evidence":["form.rings","relief.sunk"],"measurements":{"filmUm":[118,125.5],"gloss60":22,"deltaE00":1.5,
             "faultDepthUm":2.5,"filmPanels":[{"panel":"roof","filmUm":[110,112]}]},
             "statements":[{"evidence":"history.sudden","saidBy":"owner"}],"appliedOn":"2026-05-01",
             "panel":"hood","externalRef":"lot 7"}
            """);

        Assert.Null(error);
        Assert.Equal(["form.rings", "relief.sunk"], facts!.Evidence);
        Assert.Equal([118, 125.5], facts.Readings.FilmUm);
        Assert.Equal(22, facts.Readings.Gloss60);
        Assert.Equal(1.5, facts.Readings.DeltaE00);
        Assert.Equal(2.5, facts.Readings.FaultDepthUm);
        Assert.Equal("roof", Assert.Single(facts.Readings.FilmPanels).Panel);
        Assert.Equal([110, 112], facts.Readings.FilmPanels[0].FilmUm);
        Assert.Equal(("history.sudden", "owner"), (facts.Statements[0].Evidence, facts.Statements[0].SaidBy));
        Assert.Equal("2026-05-01", facts.AppliedOn);
        Assert.Equal("hood", facts.Panel);
        Assert.Equal("lot 7", facts.ExternalRef);
    }

    [Theory]
    [InlineData("{}")]
    [InlineData("""{"evidence":[],"measurements":{}}""")]
    [InlineData("""{"measurements":{"filmUm":null,"gloss60":null,"deltaE00":null},"panel":null}""")]
    public void Read_what_was_not_read_stays_unset(string json)
    {
        var (facts, error) = RankCase.Read(json);

        Assert.Null(error);
        Assert.Empty(facts!.Evidence);
        Assert.True(facts.Readings is null or { HasGloss60: false, HasDeltaE00: false, FilmUm.Count: 0 });
    }

    [Theory]
    [InlineData("{", "no JSON")]
    [InlineData("3", "one JSON object")]
    [InlineData("""{"signs":[]}""", "'signs'")]
    [InlineData("""{"measurements":{"gloss20":3}}""", "'gloss20'")]
    [InlineData("""{"measurements":[]}""", "'measurements'")]
    [InlineData("""{"measurements":{"gloss60":"22"}}""", "'gloss60'")]
    [InlineData("""{"measurements":{"gloss60":1e999}}""", "'gloss60'")]
    [InlineData("""{"measurements":{"filmUm":118}}""", "'filmUm'")]
    [InlineData("""{"measurements":{"filmUm":[118,null]}}""", "'filmUm'")]
    [InlineData("""{"evidence":"form.rings"}""", "'evidence'")]
    [InlineData("""{"evidence":[1]}""", "'evidence'")]
    [InlineData("""{"statements":{}}""", "'statements'")]
    [InlineData("""{"statements":[{"evidence":"form.rings","by":"owner"}]}""", "'statements'")]
    [InlineData("""{"statements":["form.rings"]}""", "'statements'")]
    [InlineData("""{"measurements":{"filmPanels":[{"hood":[110]}]}}""", "'filmPanels'")]
    [InlineData("""{"measurements":{"faultDepthUm":"2"}}""", "'faultDepthUm'")]
    [InlineData("""{"appliedOn":20260501}""", "'appliedOn'")]
    [InlineData("""{"panel":3}""", "'panel'")]
    [InlineData("""{"panel":"a","panel":"b"}""", "panel")]
    [InlineData("""{"panel":"\ud800"}""", "no character")]
    public void Read_bad_case_says_what_is_wrong(string json, string complaint)
    {
        var (facts, error) = RankCase.Read(json);

        Assert.Null(facts);
        Assert.Equal("INVALID_ARGUMENT", error!.Code);
        Assert.Equal("FIELD_INVALID", error.Reason);
        Assert.Contains(complaint, error.Message, StringComparison.Ordinal);
    }
}
