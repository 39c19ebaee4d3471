using CoatScan.Classification;
using CoatScan.Training.Rendering;

namespace CoatScan.TrainingTests.Rendering;

public sealed class CellLabelerTests
{
    private static readonly int Sound = VisualClasses.IndexOf(VisualClasses.Sound);

    private static readonly int Chips = VisualClasses.IndexOf(VisualClasses.Chips);

    // Ten pixels a cell.
    private const int WidthPx = 10 * CellMap.Side;

    [Fact]
    public void Label_marks_the_cells_with_the_fault_and_leaves_the_rest_sound()
    {
        // The fault fills the cell in column 4 and row 3.
        var mask = new bool[WidthPx * WidthPx];
        Fill(mask, 40, 30, 10);

        var labels = CellLabeler.Label(Chips, mask, WidthPx, WidthPx);

        Assert.Equal(Chips, labels[(3 * CellMap.Side) + 4]);
        Assert.Equal(CellMap.Count - 1, labels.Count(label => label == Sound));
    }

    [Fact]
    public void Label_leaves_a_barely_touched_cell_undecided()
    {
        var mask = new bool[WidthPx * WidthPx];
        Fill(mask, 40, 30, 10);
        mask[5] = true;

        Assert.Equal(CellLabeler.Undecided, CellLabeler.Label(Chips, mask, WidthPx, WidthPx)[0]);
    }

    [Fact]
    public void Label_of_a_scene_without_a_panel_is_that_everywhere()
    {
        var none = VisualClasses.IndexOf(VisualClasses.NotAPanel);

        Assert.All(CellLabeler.Label(none, new bool[30 * 30], 30, 30), label => Assert.Equal(none, label));
    }

    private static void Fill(bool[] mask, int left, int top, int side)
    {
        for (var y = top; y < top + side; y++)
        {
            mask.AsSpan((y * WidthPx) + left, side).Fill(true);
        }
    }
}
