namespace CoatScan.DemoPanels.Surface;

public sealed class CellFieldTests
{
    [Fact]
    public void Build_border_distance_is_small_exactly_where_the_cell_changes()
    {
        var field = CellField.Build(new PanelRandom(3), 120, 120, 20f, 1f, 0f, 0f);

        for (var y = 0; y < 120; y++)
        {
            for (var x = 1; x < 120; x++)
            {
                var at = (y * 120) + x;
                if (field.Cell[at] != field.Cell[at - 1])
                {
                    // One of the two pixels is within half a pixel of the line between them.
                    Assert.True(MathF.Min(field.BorderDistancePx.Values[at], field.BorderDistancePx.Values[at - 1]) <= 0.51f);
                }
            }
        }

        Assert.InRange(field.Cell.Distinct().Count(), 25, 64);
    }
}
