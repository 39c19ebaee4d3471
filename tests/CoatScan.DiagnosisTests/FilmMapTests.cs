using CoatScan.Findings;

namespace CoatScan.DiagnosisTests;

public class FilmMapTests
{
    [Theory]
    [InlineData(new[] { 79.0 }, FilmClass.Thin)]
    [InlineData(new[] { 80.0 }, FilmClass.Factory)]
    [InlineData(new[] { 170.0 }, FilmClass.Factory)]
    [InlineData(new[] { 171.0 }, FilmClass.Repaint)]
    [InlineData(new[] { 100.0, 100, 301 }, FilmClass.SeveralFinishes)]
    [InlineData(new[] { 100.0, 100, 1001 }, FilmClass.Filler)]
    public void Diagnose_readings_become_one_word(double[] um, FilmClass expected)
    {
        FilmMapEntry entry = Assert.Single(Map(new() { FilmUm = um }, ""));
        Assert.Equal(expected, entry.Class);
        Assert.Equal((um.Min(), um.Max(), um.Length), (entry.LowUm, entry.HighUm, entry.Count));
        Assert.NotEmpty(entry.Text);
    }

    [Fact]
    public void Diagnose_panel_uneven_in_itself_or_among_others_is_flagged()
    {
        IReadOnlyList<FilmMapEntry> map = Map(
            new()
            {
                FilmPanels = [new("hood", [110, 120]), new("roof", [112, 118]), new("LF door", [115, 180]), new("RF door", [220, 230])],
            },
            "hood");
        Assert.Equal(["hood", "roof", "LF door", "RF door"], map.Select(m => m.Panel));
        Assert.Equal([false, false, true, true], map.Select(m => m.Uneven));
        Assert.Contains("in itself", map[2].Text, StringComparison.Ordinal);
        Assert.Contains("stands out", map[3].Text, StringComparison.Ordinal);
        Assert.Equal(FilmClass.Repaint, map[3].Class);
    }

    [Fact]
    public void Diagnose_readings_of_the_panel_may_stand_in_the_map_alone()
    {
        var facts = new PanelFacts { Panel = "Hood", Readings = new() { FilmPanels = [new("roof", [110]), new("hood", [330])] } };
        PanelDiagnosis answer = Known.Diagnostician.Diagnose(facts, null);
        Assert.Equal("film.over_300_um", Assert.Single(answer.Evidence).Id);
        Assert.Equal(["Hood", "roof"], answer.FilmMap.Select(m => m.Panel));
        Assert.NotNull(answer.FilmBudget);
    }

    [Fact]
    public void Diagnose_without_readings_has_no_map() => Assert.Empty(Known.Diagnose("form.domes").FilmMap);

    private static IReadOnlyList<FilmMapEntry> Map(Readings readings, string panel) =>
        Known.Diagnostician.Diagnose(new PanelFacts { Readings = readings, Panel = panel }, null).FilmMap;
}
