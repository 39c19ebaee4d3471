using CoatScan.Classification;
using CoatScan.Training.Rendering;

namespace CoatScan.TrainingTests.Rendering;

public sealed class TileLabelerTests
{
    private static readonly int Sound = VisualClasses.IndexOf(VisualClasses.Sound);

    private static readonly int Chips = VisualClasses.IndexOf(VisualClasses.Chips);

    [Fact]
    public void Label_marks_the_tile_with_the_fault_and_leaves_the_rest_sound()
    {
        var mask = new bool[90 * 90];
        Fill(mask, 40, 40, 10);

        var labels = TileLabeler.Label(Chips, mask, 90, 90);

        Assert.Equal([Sound, Sound, Sound, Sound, Chips, Sound, Sound, Sound, Sound], labels);
    }

    [Fact]
    public void Label_leaves_a_barely_touched_tile_undecided()
    {
        var mask = new bool[90 * 90];
        Fill(mask, 40, 40, 10);
        mask[5] = true;

        Assert.Equal(TileLabeler.Undecided, TileLabeler.Label(Chips, mask, 90, 90)[0]);
    }

    [Fact]
    public void Label_of_a_scene_without_a_panel_is_that_everywhere()
    {
        var none = VisualClasses.IndexOf(VisualClasses.NotAPanel);

        Assert.All(TileLabeler.Label(none, new bool[30 * 30], 30, 30), label => Assert.Equal(none, label));
    }

    private static void Fill(bool[] mask, int left, int top, int side)
    {
        for (var y = top; y < top + side; y++)
        {
            mask.AsSpan((y * 90) + left, side).Fill(true);
        }
    }
}
