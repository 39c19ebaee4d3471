using System.Globalization;
using CoatScan.Training.Evaluation;

namespace CoatScan.Training.Reporting.Charts;

/// <summary>True class by row, called class by column: counts, shaded by their share of the row.</summary>
internal static class ConfusionChart
{
    private const double Cell = 26;
    private const double LabelPx = 6.4;
    private const double Top = 44;

    public static string Draw(SetReport set)
    {
        int[] rows = [.. Enumerable.Range(0, set.Confusion.Length).Where(i => set.Confusion[i].Sum() > 0)];
        int[] columns = [.. Enumerable.Range(0, set.Confusion.Length).Where(i => set.Confusion.Sum(row => row[i]) > 0 || rows.Contains(i))];
        var left = 24 + (LabelPx * rows.Max(i => set.Names[i].Length));
        var head = Top + (LabelPx * columns.Max(i => set.Names[i].Length));
        var page = new SvgPage(
            Math.Max(360, left + (Cell * columns.Length) + 60), head + (Cell * rows.Length) + 20,
            ReportText.Invariant($"True class (row) and called class (column), {set.Count} photos"));
        for (var column = 0; column < columns.Length; column++)
        {
            page.Text(left + (Cell * (column + 0.65)), head - 6, set.Names[columns[column]], 11, "start", -90);
        }

        for (var row = 0; row < rows.Length; row++)
        {
            var y = head + (Cell * row);
            var counts = set.Confusion[rows[row]];
            page.Text(left - 8, y + (Cell * 0.65), set.Names[rows[row]], 11, "end");
            page.Text(left + (Cell * columns.Length) + 8, y + (Cell * 0.65), counts.Sum().ToString(CultureInfo.InvariantCulture), 11);
            for (var column = 0; column < columns.Length; column++)
            {
                var x = left + (Cell * column);
                var count = counts[columns[column]];
                var share = count / (double)counts.Sum();
                page.Box(x, y, Cell, Cell, Shade(share), "#999");
                if (rows[row] == columns[column])
                {
                    // The right answers stand in a frame, so that the diagonal can be followed without color.
                    page.Box(x + 1.5, y + 1.5, Cell - 3, Cell - 3, "none", share > 0.5 ? "#fff" : "#000");
                }

                if (count > 0)
                {
                    page.Text(
                        x + (Cell / 2), y + (Cell * 0.65), count.ToString(CultureInfo.InvariantCulture), 11, "middle",
                        ink: share > 0.5 ? "#fff" : "#000");
                }
            }
        }

        return page.ToString();
    }

    private static string Shade(double share)
    {
        var level = (int)Math.Round(255 - (225 * share));
        return $"#{level:x2}{level:x2}{level:x2}";
    }
}
