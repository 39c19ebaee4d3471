using CoatScan.Training.Evaluation;

namespace CoatScan.Training.Reporting.Charts;

/// <summary>Share of wrong answers against the share of photos that are answered, the surest first.</summary>
internal static class RiskCoverageChart
{
    public static string Draw(SetReport set)
    {
        var all = set.RiskCoverage[^1].Risk;
        var axes = new UnitAxes(
            ReportText.Invariant($"Risk over coverage, {set.Count} photos"), "share of photos answered, surest first", "share of wrong answers");
        axes.Page.Line(UnitAxes.X(0), UnitAxes.Y(all), UnitAxes.X(1), UnitAxes.Y(all), 1.2, "#000", "6 4");
        axes.Page.Text(UnitAxes.X(0) + 6, UnitAxes.Y(all) - 6, ReportText.Invariant($"all answered: {all:0.00}"), 11);
        axes.Page.Path(set.RiskCoverage.Select(point => (UnitAxes.X(point.Coverage), UnitAxes.Y(point.Risk))));
        foreach (var point in set.RiskCoverage)
        {
            axes.Page.Dot(UnitAxes.X(point.Coverage), UnitAxes.Y(point.Risk), 3.5);
        }

        return axes.Page.ToString();
    }
}
