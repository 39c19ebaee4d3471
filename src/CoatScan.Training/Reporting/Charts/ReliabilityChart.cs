using System.Globalization;
using CoatScan.Training.Evaluation;

namespace CoatScan.Training.Reporting.Charts;

/// <summary>Confidence against share of right answers: on the diagonal the probabilities are honest, below it the model is too sure.</summary>
internal static class ReliabilityChart
{
    public static string Draw(SetReport set)
    {
        var axes = new UnitAxes(
            ReportText.Invariant($"Reliability, {set.Count} photos, ECE {set.Ece10.Value:0.000}"), "confidence", "share of right answers");
        axes.Page.Line(UnitAxes.X(0), UnitAxes.Y(0), UnitAxes.X(1), UnitAxes.Y(1), 1.2, "#000", "6 4");
        var most = set.Reliability.Max(bin => bin.Count);
        foreach (var bin in set.Reliability)
        {
            // How many answers each bin holds, as bars along the bottom.
            var height = 0.14 * bin.Count / most;
            axes.Page.Box(
                UnitAxes.X(bin.Low) + 2, UnitAxes.Y(height), UnitAxes.X(bin.High) - UnitAxes.X(bin.Low) - 4, UnitAxes.Y(0) - UnitAxes.Y(height),
                "#ccc", "#666");
        }

        axes.Page.Path(set.Reliability.Select(bin => (UnitAxes.X(bin.Confidence), UnitAxes.Y(bin.Right))));
        foreach (var bin in set.Reliability)
        {
            axes.Page.Dot(UnitAxes.X(bin.Confidence), UnitAxes.Y(bin.Right), 4.5);
            axes.Page.Text(
                UnitAxes.X(bin.Confidence) + 7, UnitAxes.Y(bin.Right) + 14, bin.Count.ToString(CultureInfo.InvariantCulture), 10);
        }

        return axes.Page.ToString();
    }
}
